import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { drawMatrix, matrixContent } from '../../../src/app/charts/matrixContent.tsx';
import { PhotoMatrix } from '../../../src/app/charts/PhotoMatrix.tsx';
import type { PhotoMatrixProps } from '../../../src/app/charts/photoMatrixProps.ts';
import { WORDS } from './sampleFigures.ts';

const photo = (plot: string, ratingDate: string, words: string) => ({
  plot,
  ratingDate,
  photoId: `${ratingDate} ${plot}`,
  words,
});

const props: PhotoMatrixProps = {
  ...WORDS,
  plots: [
    { plot: '101', treatment: '3' },
    { plot: '102', treatment: '1' },
    { plot: '103', treatment: '4' },
  ],
  ratingDates: ['2027-04-12', '2027-05-17'],
  photos: [
    photo('101', '2027-04-12', '6.6 %'),
    photo('101', '2027-05-17', '15.0 %'),
    photo('102', '2027-04-12', '5.7 %'),
    photo('103', '2027-04-12', '3.6 %'),
    photo('103', '2027-05-17', '7.6 %'),
  ],
  picture: ({ photoId }) => <img src={`${photoId}.jpg`} alt="" />,
  hrefOf: ({ photoId }) => `#/cover/${photoId}`,
};

const rowsOf = (markup: string) => markup.split('<tr>').slice(2);

test('a report has every picture in its place, and says where there is none', () => {
  const rows = rowsOf(renderToStaticMarkup(<PhotoMatrix {...props} allRows />));
  expect(rows).toHaveLength(3);
  expect(rows[1]).toContain('<strong>102</strong><span>Treatment 1</span>');
  expect(rows[1]).toContain('src="2027-04-12 102.jpg"');
  expect(rows[1]).toContain('no photo');
  expect(rows[0]).toContain('aria-label="Plot 101, 17 May 2027: 15.0 %"');
});

test('on a page rows far from the window are their headings alone', () => {
  const rows = rowsOf(renderToStaticMarkup(<PhotoMatrix {...props} />));
  expect(rows).toHaveLength(3);
  for (const row of rows) expect(row).toMatch(/<th scope="row">.*<td colSpan="2" class="[^"]*"><\/td>/);
});

test('a saved matrix is turned where that makes larger pictures, each under its own plot and date', () => {
  const addresses = new Map(props.photos.map((one) => [one, `data:${one.words}`]));
  const imagesAt = (widthPx: number, heightPx: number | null) => {
    const { content } = drawMatrix(props, addresses, { widthPx, heightPx, textPx: 12 });
    return [
      ...renderToStaticMarkup(content).matchAll(/<image x="([\d.]+)" y="([\d.]+)"[^>]* href="data:([^"]*)"/g),
    ].map((match) => ({ x: Number(match[1]), y: Number(match[2]), words: match[3]! }));
  };
  const upright = new Map(imagesAt(640, null).map((one) => [one.words, one]));
  expect(upright.get('15.0 %')!.y).toBe(upright.get('6.6 %')!.y);
  expect(upright.get('15.0 %')!.x).toBeGreaterThan(upright.get('6.6 %')!.x);
  const turned = new Map(imagesAt(900, 300).map((one) => [one.words, one]));
  expect(turned.size).toBe(5);
  expect(turned.get('15.0 %')!.x).toBe(turned.get('6.6 %')!.x);
  expect(turned.get('15.0 %')!.y).toBeGreaterThan(turned.get('6.6 %')!.y);
});

test('more photos than a picture holds are refused in words', async () => {
  const photos = Array.from({ length: 401 }, (_, i) => photo(String(i), '2027-04-12', '1 %'));
  await expect(matrixContent({ ...props, photos })).rejects.toThrow(
    'up to 400 photos, this one would have 401',
  );
});
