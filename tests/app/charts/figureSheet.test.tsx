import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { coverOverTime } from '../../../src/app/charts/CoverOverTime.tsx';
import type { FigureContent } from '../../../src/app/charts/drawing.ts';
import { FigureSheet, type PictureSize } from '../../../src/app/charts/FigureSheet.tsx';
import { photoPair } from '../../../src/app/charts/PhotoPair.tsx';
import { onPaper } from '../../../src/app/charts/paint.ts';
import { treatmentBars } from '../../../src/app/charts/TreatmentBars.tsx';
import { RESULTS_CAUTION } from '../../../src/core/text/statisticsCommands.ts';
import { bars, meanOf, overTime, WORDS } from './sampleFigures.ts';

const sheet = (content: FigureContent, size: PictureSize) =>
  onPaper(renderToStaticMarkup(<FigureSheet content={content} size={size} />));

/** All words of a picture, lines joined. */
const words = (markup: string) =>
  [...markup.matchAll(/<text[^>]*>([^<]*)/g)].map((match) => match[1]).join(' ');

const viewBox = (markup: string) => /viewBox="([^"]*)"/.exec(markup)![1]!.split(' ').map(Number);

const barsOfThree = treatmentBars(bars([meanOf(0, 40), meanOf(1, 20), meanOf(2, 10)]));

test.each(['print', 'slide'] as const)(
  '%s: title, what bars are, n and caution stand on the picture',
  (size) => {
    const text = words(sheet(barsOfThree, size));
    expect(text).toContain('Weedy grass cover');
    expect(text).toContain('Bars: mean ± standard error.');
    expect(text).toContain('n = 4 plots a treatment.');
    expect(text).toContain(RESULTS_CAUTION);
  },
);

test('an experimental use is said', () => {
  const content = treatmentBars({ ...bars([meanOf(0, 40), meanOf(1, 20)]), experimental: true });
  expect(words(sheet(content, 'print'))).toContain('experimental uses that no product label allows');
  expect(words(sheet(barsOfThree, 'print'))).not.toContain('experimental');
});

test('a slide is 16:9, print is 170 mm wide', () => {
  const [, , width, height] = viewBox(sheet(barsOfThree, 'slide'));
  expect(width! / height!).toBeCloseTo(16 / 9, 10);
  expect((viewBox(sheet(barsOfThree, 'print'))[2]! / 96) * 25.4).toBeCloseTo(170, 6);
});

test('the file stands for itself: no property, no style, no class, no address', () => {
  const markup = sheet(
    coverOverTime(overTime([{ ratingDate: '2027-04-12', means: [meanOf(0, 10), meanOf(1, 4)] }])),
    'print',
  );
  expect(markup).not.toMatch(/var\(| style=| class=|href=|url\(/);
  expect(markup).toContain('xmlns="http://www.w3.org/2000/svg"');
  expect(markup).toMatch(/<rect width="[\d.]+" height="[\d.]+" fill="#ffffff"/);
});

test('many treatments and dates still fit a slide', () => {
  const treatments = Array.from({ length: 12 }, (_, i) => ({
    treatment: String(i + 1),
    label: `programme number ${i + 1} with a name of some length`,
  }));
  const content = coverOverTime({
    ...overTime(
      Array.from({ length: 30 }, (_, i) => ({
        ratingDate: `2027-${String(1 + Math.floor(i / 5)).padStart(2, '0')}-${String(1 + (i % 5) * 6).padStart(2, '0')}`,
        means: treatments.map((one, k) => ({ ...meanOf(0, 5 * k + i), ...one })),
      })),
    ),
    treatments,
    applications: treatments.map(({ treatment }) => ({
      treatment,
      date: '2027-02-01',
      name: 'coded product',
      done: true,
    })),
  });
  const markup = sheet(content, 'slide');
  const shrink = Number(/scale\(([\d.]+)\)/.exec(markup)![1]);
  expect(shrink).toBeGreaterThan(0.49);
  expect(shrink).toBeLessThan(1);
});

test('two photos stand at one scale, with a bar of a round length', () => {
  const picture = { plot: '201', url: 'blob:x', widthPx: 1000, heightPx: 750, words: 'weedy grass 38 %' };
  const props = {
    ...WORDS,
    ratingDate: '2027-06-21',
    block: '2',
    pictures: [
      { ...picture, treatment: '1', label: 'untreated control', millimetresPerPixel: 0.8 },
      { ...picture, treatment: '4', label: 'programme', plot: '202', millimetresPerPixel: 0.4 },
    ],
  } as const;
  const markup = sheet(photoPair(props), 'print');
  const [first, second] = [...markup.matchAll(/<image [^>]* width="([\d.]+)"/g)].map((match) =>
    Number(match[1]),
  );
  expect(first! / second!).toBeCloseTo(2, 2);
  expect(words(markup)).toMatch(/ (?:50|100|200|500) mm /);
  const unscaled = {
    ...props,
    pictures: [props.pictures[0], { ...props.pictures[1], millimetresPerPixel: null }],
  } as const;
  expect(words(sheet(photoPair(unscaled), 'print'))).toContain('Scale not known');
  expect(words(sheet(photoPair(unscaled), 'print'))).not.toMatch(/\d mm /);
});
