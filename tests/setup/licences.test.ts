import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { LICENCE_FILES, licences } from '../../src/setup/licences.mjs';

const HINT = 'out of date: run node src/setup/licences.mjs';

test('the licences of the work of others are listed as installed, and shipped with the page', () => {
  const { list, texts } = licences();
  expect(readFileSync(LICENCE_FILES.list, 'utf8') === list, `docs/third-party.md is ${HINT}`).toBe(true);
  expect(readFileSync(LICENCE_FILES.texts, 'utf8') === texts, `licences.txt is ${HINT}`).toBe(true);
});

test('every package of the page has a licence that lets it be passed on', () => {
  const shipped = licences().list.split('## Used by')[0]!;
  const rows = [...shipped.matchAll(/^\| (\S+) \| \d\S* \| (.+) \|$/gm)];
  expect(rows.length).toBeGreaterThan(10);
  const known = ['MIT', 'ISC', 'Apache-2.0', 'BSD-3-Clause', 'MPL-2.0', 'Unlicense'];
  for (const [, name, licence] of rows) expect(known, `licence of ${name}`).toContain(licence);
});
