import { expect, test } from 'vitest';
import { labelProblemText } from '../../../src/core/text/trial.ts';
import { checkCharacter } from '../../../src/core/trial/checkCharacter.ts';
import {
  newTrialCode,
  parsePlotLabel,
  readPlotLabel,
  writePlotLabel,
} from '../../../src/core/trial/plotLabel.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

test.each([
  ['A12425GABC1234002', 'M'],
  ['A12425GXYZ9876008', '6'],
  ['A12425G1234567890', 'L'],
  ['A12589KCCC2586482', 'V'],
])('ISO 7064 MOD 37,36 of %s is %s', (text, expected) => {
  // published release identifiers, whose last character is this check
  expect(checkCharacter(text)).toBe(expected);
});

const label = { trial: 'K7QF3M', plot: '101', place: null, ratingDate: null };

test.each([
  [label, /^SB1:K7QF3M:101:[0-9A-Z]$/],
  [{ ...label, place: 2 }, /^SB1:K7QF3M:101:P2:[0-9A-Z]$/],
  [
    { ...label, plot: 'N-1.2', place: 12, ratingDate: '2027-04-12' },
    /^SB1:K7QF3M:N-1\.2:P12:D20270412:[0-9A-Z]$/,
  ],
  [{ ...label, plot: 'P2', ratingDate: '2027-04-12' }, /^SB1:K7QF3M:P2:D20270412:[0-9A-Z]$/],
])('%j is written in the characters of a compact QR code and read again', (one, form) => {
  const text = writePlotLabel(one);
  expect(text).toMatch(form);
  expect(text).toMatch(/^[0-9A-Z $%*+\-./:]+$/);
  expect(parsePlotLabel(text)).toEqual({ ok: true, label: one });
  expect(parsePlotLabel(` ${text.toLowerCase()}\n`)).toEqual({ ok: true, label: one });
});

test('one wrong letter or digit anywhere is never another label', () => {
  const text = writePlotLabel({ ...label, place: 2 });
  let tried = 0;
  for (let at = 0; at < text.length; at++) {
    for (const character of '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ') {
      if (character === text[at] || text[at] === ':') continue;
      tried++;
      expect(parsePlotLabel(text.slice(0, at) + character + text.slice(at + 1)).ok).toBe(false);
    }
  }
  expect(tried).toBe(35 * text.replaceAll(':', '').length);
});

const plots = ['101', '102', 'a-1'];

test('labels that are not for this trial are refused, each in its own words', () => {
  const refusals = [
    'https://example.org/101',
    writePlotLabel(label).replace('SB1', 'SB2'),
    `${writePlotLabel(label).slice(0, -1)}?`,
    writePlotLabel({ ...label, trial: 'ZZ9XT4' }),
    writePlotLabel({ ...label, plot: '999' }),
  ].map((text) => readPlotLabel(text, 'K7QF3M', plots));
  const problems = refusals.map((one) => (one.ok ? null : one.problem));
  expect(problems.map((problem) => problem?.code)).toEqual([
    'not-a-label',
    'label-newer',
    'label-damaged',
    'label-of-other-trial',
    'label-of-unknown-plot',
  ]);
  expect(labelProblemText(problems[3]!)).toContain('another trial (ZZ9XT4, plot 101)');
  expect(new Set(problems.map((problem) => labelProblemText(problem!))).size).toBe(5);
});

test('a plot is spelled as in the trial', () => {
  expect(readPlotLabel(writePlotLabel({ ...label, plot: 'A-1' }), 'K7QF3M', plots)).toMatchObject({
    label: { plot: 'a-1' },
  });
});

test('codes of new trials have six characters that are not misread', () => {
  const codes = Array.from({ length: 200 }, (_, seed) => newTrialCode(repeatableRandom(seed)));
  expect(codes.every((code) => /^[0-9A-HJKMNP-TV-Z]{6}$/.test(code))).toBe(true);
  expect(new Set(codes).size).toBe(200);
});
