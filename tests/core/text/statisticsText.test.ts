import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { NoteCode } from '../../../src/core/statistics/note.ts';
import { formatP, formatSignificant, noteText } from '../../../src/core/text/statistics.ts';

const core = new URL('../../../src/core/', import.meta.url);
const sources = readdirSync(core, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => readFileSync(new URL(name, core), 'utf8'));

test('every note that can be made has a sentence of its own', () => {
  const codes = [
    ...new Set(
      sources.flatMap((text) =>
        [...text.matchAll(/\bnote\('([a-z-]+)'/g)].map(([, code]) => code as NoteCode),
      ),
    ),
  ];
  expect(codes.length).toBeGreaterThan(40);
  const sentences = codes.map((code) => noteText({ code, values: {} }));
  expect(new Set(sentences).size).toBe(codes.length);
  for (const sentence of sentences) expect(sentence).toMatch(/^\S.*\.$/s);
});

test('numbers and long lists stay readable', () => {
  expect(formatSignificant(12.3456)).toBe('12.35');
  expect(formatSignificant(0.000012)).toBe('1.20e-5');
  expect(formatP(0.00004)).toBe('<0.0001');
  const plots = Array.from({ length: 30 }, (_, i) => String(i + 1));
  expect(noteText({ code: 'area-bridged', values: { plots } })).toContain('7, 8 and 22 more');
});
