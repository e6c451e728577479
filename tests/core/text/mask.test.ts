import { expect, test } from 'vitest';
import { correctionBytesProblemText, lopsidedWarningText } from '../../../src/core/text/mask.ts';

const classes = ['Ryegrass', 'Weedy grass', 'Bare ground'];

test('stored corrections that cannot be read: what is wrong, and that they are kept', () => {
  const sentences = [
    correctionBytesProblemText({ code: 'corrections-other-data' }),
    correctionBytesProblemText({ code: 'corrections-newer-version', version: 2, known: 1 }),
    correctionBytesProblemText({ code: 'corrections-damaged', detail: 'checksum' }),
    correctionBytesProblemText({
      code: 'corrections-other-size',
      widthPx: 4,
      heightPx: 1,
      photoWidthPx: 1,
      photoHeightPx: 4,
    }),
  ];
  for (const sentence of sentences) expect(sentence).toContain('kept');
  expect(sentences[1]).toContain('format 2, known up to 1');
  expect(sentences[3]).toContain('4 × 1 pixels, this one has 1 × 4');
});

test('lopsided corrections are told with their values', () => {
  expect(
    lopsidedWarningText(
      { code: 'corrections-treatments-left-out', seen: ['A'], leftOut: ['B', 'C', 'D'] },
      classes,
    ),
  ).toContain('of B, C and D none was looked at (of A some were)');
  const most = { treatment: 'A', fraction: 1 };
  expect(
    lopsidedWarningText(
      { code: 'corrections-uneven-review', most, least: { treatment: 'B', fraction: 0.25 } },
      classes,
    ),
  ).toContain('Of A, 100 % of the photos were looked at, of B only 25 %.');
  const moved = {
    code: 'corrections-move-comparison',
    label: 2,
    most: { treatment: 'A', fraction: 0.052 },
    least: { treatment: 'B', fraction: -0.0041 },
  } as const;
  expect(lopsidedWarningText(moved, classes)).toContain(
    'the mean cover of Weedy grass by +5.2 points in A and by -0.4 points in B',
  );
  expect(() => lopsidedWarningText({ ...moved, label: 4 }, classes)).toThrow('class 4: 3 names');
});
