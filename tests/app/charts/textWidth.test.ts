import { expect, test } from 'vitest';
import { textWidth, wrapText } from '../../../src/app/charts/textWidth.ts';

test('a text takes at least the room of its letters in Arial', () => {
  // 'Weedy grass cover' in Arial: 8.002 em by the published widths of Helvetica (AFM, from memory)
  expect(textWidth('Weedy grass cover', 10)).toBeGreaterThan(80);
  expect(textWidth('Weedy grass cover', 10)).toBeLessThan(110);
});

test('lines hold whole words, in order, within the width', () => {
  const text = 'L-31 before sowing, then growth regulator, then coded product L-58 in winter';
  const lines = wrapText(text, 150, 12);
  expect(lines.length).toBeGreaterThan(2);
  expect(lines.join(' ')).toBe(text);
  for (const line of lines) expect(textWidth(line, 12)).toBeLessThanOrEqual(150);
});

test('what is left over ends in an ellipsis, within the width', () => {
  const lines = wrapText('growth regulator programme after emergence and again', 90, 12, 2);
  expect(lines).toHaveLength(2);
  expect(lines[1]).toMatch(/…$/);
  expect(textWidth(lines[1]!, 12)).toBeLessThanOrEqual(90);
});
