import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { linearFromSrgb, srgbFromLinear } from '../../src/core/colour/srgb.ts';
import { measurePhoto } from '../../src/core/cover/measurePhoto.ts';
import type { PlotFrame } from '../../src/core/geometry/plotFrame.ts';
import { checkPhoto } from '../../src/core/quality/checkPhoto.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';

/** Cover error of the start model on the sample photos that show a card, under one cast of colour. */
export interface CardBenefit {
  readonly cast: string;
  readonly photos: number;
  /** Mean over photos and classes of the absolute error, percentage points. */
  readonly without: number;
  /** With the card that the program finds by itself. */
  readonly with: number;
  /** Photos on which the card was found and could be used. */
  readonly found: number;
}

/** Factors of linear red, green and blue: none, and the casts that a wrong white balance gives. */
const CASTS = [
  ['none', [1, 1, 1]],
  ['cool', [0.75, 1, 1.35]],
  ['warm', [1.35, 1, 0.7]],
] as const;

interface SamplePhoto {
  readonly photo: string;
  readonly frame: PlotFrame['corners'];
  readonly frameSizeMm: readonly [number, number];
  readonly greyCard: readonly number[] | null;
  readonly coverPercentOfGround: Readonly<Record<string, number>>;
}

const samples = new URL('../../sample-images/', import.meta.url);

export async function measureCardBenefit(): Promise<readonly CardBenefit[]> {
  const all: readonly SamplePhoto[] = JSON.parse(
    readFileSync(new URL('photos.json', samples), 'utf8'),
  ).photos;
  const withCard = all.filter(({ greyCard }) => greyCard !== null);
  const results: CardBenefit[] = [];
  for (const [cast, gains] of CASTS) {
    const errors: [number[], number[]] = [[], []];
    let found = 0;
    for (const sample of withCard) {
      const raster = tinted(await decode(sample.photo), gains);
      const frame = { corners: sample.frame, sizeMm: sample.frameSizeMm };
      const bare = { frame, ignored: [], neutral: null };
      const find = { frame: false, greyCard: true, frameSizeMm: null };
      const { settings } = checkPhoto(raster, new Uint8Array(), bare, find);
      if (settings.neutral) found += 1;
      // the card itself is left out in both, so that only the balance differs
      for (const [k, neutral] of [null, settings.neutral].entries()) {
        const result = await measurePhoto(raster, { classes: DEFAULT_CLASSES, ...settings, neutral });
        if (!result.ok) throw new Error(`${sample.photo}: ${result.problem.code}`);
        const parts = result.measurement.cover.map(({ classId, coverFraction }) =>
          Math.abs(100 * coverFraction - sample.coverPercentOfGround[classId]!),
        );
        errors[k]!.push(parts.reduce((sum, part) => sum + part, 0) / parts.length);
      }
    }
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    results.push({ cast, photos: withCard.length, without: mean(errors[0]), with: mean(errors[1]), found });
  }
  return results;
}

async function decode(photo: string): Promise<RgbaRaster> {
  const { data, info } = await sharp(fileURLToPath(new URL(photo, samples)))
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, data: new Uint8ClampedArray(data) };
}

function tinted(photo: RgbaRaster, gains: readonly [number, number, number]): RgbaRaster {
  const tables = gains.map((gain) =>
    Uint8ClampedArray.from({ length: 256 }, (_, byte) =>
      Math.round(255 * srgbFromLinear(Math.min(1, gain * linearFromSrgb(byte / 255)))),
    ),
  );
  const data = photo.data.slice();
  for (let i = 0; i < data.length; i += 4) {
    for (let c = 0; c < 3; c += 1) data[i + c] = tables[c]![data[i + c]!]!;
  }
  return { ...photo, data };
}

export const cardBenefitTable = (results: readonly CardBenefit[]): string =>
  [
    'Grey card, start model on the sample photos that show one: cover error without and with its balance',
    ...results.map(
      ({ cast, photos, without, with: balanced, found }) =>
        `  cast ${cast.padEnd(6)} ${photos} photos, card found in ${found}: ${without.toFixed(2)} without, ${balanced.toFixed(2)} with`,
    ),
  ].join('\n');
