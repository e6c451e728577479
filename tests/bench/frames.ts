import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp, { type Sharp } from 'sharp';
import { type FrameFinding, findFrame, SEARCH_SIDE_PX } from '../../src/core/frame/findFrame.ts';
import { findGreyCard } from '../../src/core/frame/findGreyCard.ts';
import { reducePicture } from '../../src/core/frame/reducedPicture.ts';
import type { PhotoPoint, Quadrilateral } from '../../src/core/geometry/points.ts';
import { photoQuality, type QualityFinding } from '../../src/core/quality/photoQuality.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { framePictures, resampled, scaledColours, shadowAcross, tilt } from '../support/framePictures.ts';
import { seededRandom } from '../support/seededRandom.ts';
import { sharedPath } from '../support/sharedFolder.ts';
import { median } from './median.ts';

type Corners = Quadrilateral<'photo'>;

/** How well frames are found in one set of pictures. */
export interface FrameScore {
  readonly name: string;
  readonly pictures: number;
  /** Every corner within 3 px at 1000 px width. */
  readonly within3Px: number;
  readonly medianErrorPx: number | null;
  readonly largestErrorPx: number | null;
  readonly warned: number;
  readonly notFound: number;
  /** Wrong, or found where nothing should be trusted, and no warning. */
  readonly silentlyWrong: number;
}

/** How often a finding is given in photos with one kind of degradation. */
export interface FindingRate {
  readonly degradation: string;
  readonly code: QualityFinding['code'];
  readonly photos: number;
  readonly given: number;
}

export interface FrameBench {
  readonly samples: readonly FrameScore[];
  readonly madeUp: readonly FrameScore[];
  readonly greyCards: {
    readonly present: number;
    readonly found: number;
    readonly insideCard: number;
    readonly invented: number;
  };
  readonly hits: readonly FindingRate[];
  /** Findings of picture quality on photos that are said to be without that fault. */
  readonly falseAlarms: readonly FindingRate[];
  /** Empty without 12-MP photos. Median of 7 in Node; decode is that of sharp on the same file. */
  readonly speed: readonly {
    readonly photo: string;
    readonly decodeMs: number;
    readonly frameMs: number;
    readonly verdictMs: number;
    readonly largestErrorPx: number;
  }[];
}

interface SamplePhoto {
  readonly photo: string;
  readonly plot: string;
  readonly conditions: readonly string[];
  readonly frame: Corners;
  readonly frameSizeMm: readonly [number, number];
  readonly greyCard: readonly number[] | null;
  readonly greyCardCorners: Corners | null;
}

const samples = new URL('../../sample-images/', import.meta.url);

/** Corners of the 12-MP photos, read off their truth masks to a few pixels. */
const LARGE_PHOTOS = [
  {
    file: 'bench-overcast.jpg',
    corners: [
      [721, 231],
      [3255, 257],
      [3176, 2781],
      [702, 2711],
    ],
  },
  {
    file: 'bench-sun.jpg',
    corners: [
      [677, 278],
      [3163, 266],
      [3238, 2718],
      [717, 2827],
    ],
  },
] as unknown as readonly { file: string; corners: Corners }[];

/** Finder, grey card and verdict on the sample photos, on pictures made from them, and on 12-MP photos. */
export async function measureFrames(): Promise<FrameBench> {
  const photos: SamplePhoto[] = JSON.parse(readFileSync(new URL('photos.json', samples), 'utf8')).photos;
  const odd = photos.filter(({ plot }) => Number(plot) % 2 === 1);
  const even = photos.filter(({ plot }) => Number(plot) % 2 === 0);
  const madeUp = new Map<string, Outcome[]>();
  const greyCards = { present: 0, found: 0, insideCard: 0, invented: 0 };
  const sampleScores: FrameScore[] = [];
  for (const [name, list] of [
    ['even plots', even],
    ['odd plots (tuned on)', odd],
  ] as const) {
    const outcomes: Outcome[] = [];
    for (const photo of list) {
      const raster = await decode(fileURLToPath(new URL(photo.photo, samples)));
      outcomes.push(outcomeOf(findFrame(raster), photo.frame, raster.widthPx, false));
      const card = findGreyCard(raster, photo.frame);
      if (photo.greyCard) greyCards.present += 1;
      if (card.found && photo.greyCardCorners) {
        greyCards.found += 1;
        if (liesInside(card.rectangle, photo.greyCardCorners)) greyCards.insideCard += 1;
      } else if (card.found) greyCards.invented += 1;
    }
    sampleScores.push(scoreOf(name, outcomes));
  }
  const hits: FindingRate[] = [];
  const rates = new Map<string, { given: number; photos: number; code: QualityFinding['code'] }>();
  for (const [k, photo] of even.entries()) {
    if (k % 4 > 0) continue;
    const raster = await decode(fileURLToPath(new URL(photo.photo, samples)));
    for (const made of framePictures(raster, photo.frame, k)) {
      const outcome = outcomeOf(findFrame(made.raster), made.corners, made.raster.widthPx, made.needsWarning);
      madeUp.set(made.kind, [...(madeUp.get(made.kind) ?? []), outcome]);
    }
    if (photo.conditions.includes('blurred') || photo.conditions.includes('underexposed')) continue;
    for await (const { degradation, code, picture, corners } of degraded(photo, raster)) {
      const { findings } = photoQuality(picture, { frame: { corners, sizeMm: photo.frameSizeMm } });
      const rate = rates.get(degradation) ?? { given: 0, photos: 0, code };
      rate.photos += 1;
      if (findings.some((finding) => finding.code === code)) rate.given += 1;
      rates.set(degradation, rate);
    }
  }
  for (const [degradation, rate] of rates) hits.push({ degradation, ...rate });
  return {
    samples: sampleScores,
    madeUp: [...madeUp].map(([kind, outcomes]) => scoreOf(kind, outcomes)),
    greyCards,
    hits,
    falseAlarms: await falseAlarms(even),
    speed: await measureSpeed(),
  };
}

interface Outcome {
  readonly errorPx: number | null;
  readonly isRight: boolean;
  readonly warned: boolean;
  readonly found: boolean;
}

/** @param corners null where no frame may be trusted */
function outcomeOf(
  finding: FrameFinding,
  corners: Corners | null,
  widthPx: number,
  needsWarning: boolean,
): Outcome {
  const errorPx =
    finding.found && corners ? (1000 * largestDistance(finding.corners, corners)) / widthPx : null;
  const warned = finding.found && finding.warnings.length > 0;
  const isRight = needsWarning ? !finding.found || warned : errorPx !== null && errorPx <= 3;
  return { errorPx, isRight, warned, found: finding.found };
}

function scoreOf(name: string, outcomes: readonly Outcome[]): FrameScore {
  const errors = outcomes.map(({ errorPx }) => errorPx).filter((error) => error !== null);
  const count = (is: (outcome: Outcome) => boolean) => outcomes.filter(is).length;
  return {
    name,
    pictures: outcomes.length,
    within3Px: count(({ isRight }) => isRight),
    medianErrorPx: errors.length ? median(errors) : null,
    largestErrorPx: errors.length ? Math.max(...errors) : null,
    warned: count(({ warned }) => warned),
    notFound: count(({ found }) => !found),
    silentlyWrong: count(({ isRight, warned, found }) => found && !isRight && !warned),
  };
}

const largestDistance = (a: Corners, b: Corners): number =>
  Math.max(...a.map(([x, y], i) => Math.hypot(x - b[i]![0], y - b[i]![1])));

function liesInside([x, y, w, h]: readonly [number, number, number, number], card: Corners): boolean {
  const side = ([ax, ay]: PhotoPoint, [bx, by]: PhotoPoint, [px, py]: readonly [number, number]) =>
    (bx - ax) * (py - ay) - (by - ay) * (px - ax);
  const corners = [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ] as const;
  return corners.every((corner) => card.every((a, i) => side(a, card[(i + 1) % 4]!, corner) > 0));
}

interface DegradedPicture {
  readonly degradation: string;
  /** The finding that should be given. */
  readonly code: QualityFinding['code'];
  readonly picture: RgbaRaster;
  readonly corners: Corners;
}

async function* degraded({ photo, frame }: SamplePhoto, raster: RgbaRaster): AsyncGenerator<DegradedPicture> {
  const { widthPx, heightPx } = raster;
  for (const sigma of [0.5, 0.7, 1, 1.5, 2, 3]) {
    const picture = await blurred(fileURLToPath(new URL(photo, samples)), sigma);
    yield { degradation: `blur, sigma ${sigma} px`, code: 'blurred', picture, corners: frame };
  }
  for (const sigma of [4, 8, 12, 16]) {
    yield {
      degradation: `noise, sigma ${sigma} levels`,
      code: 'noisy',
      picture: noisy(raster, sigma),
      corners: frame,
    };
  }
  for (const stops of [-1, -2, -3, 1, 1.5, 2]) {
    // display values go with light to the power of 1 / 2.2
    const picture = scaledColours(raster, 2 ** (stops / 2.2));
    const code = stops < 0 ? 'too-dark' : 'lights-clipped';
    yield { degradation: `exposure ${stops > 0 ? '+' : ''}${stops} stops`, code, picture, corners: frame };
  }
  for (const degrees of [5, 10, 15, 20]) {
    const tilted = tilt(raster, frame, degrees, 1, 3);
    yield {
      degradation: `tilt, ${degrees} degrees more`,
      code: 'tilted',
      picture: tilted.raster,
      corners: tilted.corners,
    };
  }
  for (const share of [0.75, 0.6, 0.5, 0.35]) {
    const picture = resampled(raster, Math.round(widthPx * share), Math.round(heightPx * share), (x, y) => [
      x / share,
      y / share,
    ]);
    const corners = frame.map(([x, y]) => [x * share, y * share]) as unknown as Corners;
    yield { degradation: `size ${share}`, code: 'few-pixels', picture, corners };
  }
  for (const left of [0.7, 0.5, 0.35, 0.25]) {
    const picture = shadowAcross(raster, frame, left, seededRandom(9));
    yield {
      degradation: `shadow leaving ${left} of the light`,
      code: 'shadow-across',
      picture,
      corners: frame,
    };
  }
}

/** Conditions of a sample photo in which a finding is right. */
const EXPECTED: Partial<Record<QualityFinding['code'], string>> = {
  blurred: 'blurred',
  tilted: 'tilted',
  'too-dark': 'underexposed',
  'shadow-across': 'person-shadow',
};

async function falseAlarms(photos: readonly SamplePhoto[]): Promise<FindingRate[]> {
  const counts = new Map<QualityFinding['code'], { given: number; photos: number }>();
  const codes = [
    'blurred',
    'noisy',
    'lights-clipped',
    'shadows-clipped',
    'too-dark',
    'too-light',
    'tilted',
    'few-pixels',
    'shadow-across',
  ] as const;
  for (const photo of photos) {
    const raster = await decode(fileURLToPath(new URL(photo.photo, samples)));
    const { findings } = photoQuality(raster, { frame: { corners: photo.frame, sizeMm: photo.frameSizeMm } });
    for (const code of codes) {
      if (photo.conditions.includes(EXPECTED[code] ?? 'none')) continue;
      const count = counts.get(code) ?? { given: 0, photos: 0 };
      count.photos += 1;
      if (findings.some((finding) => finding.code === code)) count.given += 1;
      counts.set(code, count);
    }
  }
  return [...counts].map(([code, count]) => ({ degradation: 'none', code, ...count }));
}

async function measureSpeed(): Promise<FrameBench['speed']> {
  const results = [];
  for (const { file, corners } of LARGE_PHOTOS) {
    const path = sharedPath(`sample-photos/bench/${file}`);
    if (!path) continue;
    const [decodeMs, frameMs, verdictMs]: [number[], number[], number[]] = [[], [], []];
    let errorPx = Number.NaN;
    // two rounds to warm up, then seven
    for (let round = 0; round < 9; round += 1) {
      const times = [performance.now()];
      const raster = await decode(path);
      times.push(performance.now());
      const reduced = reducePicture(raster, SEARCH_SIDE_PX);
      const finding = findFrame(raster, { reduced });
      times.push(performance.now());
      if (!finding.found) break;
      const greyCard = findGreyCard(raster, finding.corners, { reduced });
      photoQuality(raster, { frame: { corners: finding.corners, sizeMm: [1000, 1000] }, greyCard, reduced });
      times.push(performance.now());
      errorPx = (1000 * largestDistance(finding.corners, corners)) / raster.widthPx;
      if (round < 2) continue;
      for (const [k, list] of [decodeMs, frameMs, verdictMs].entries()) list.push(times[k + 1]! - times[k]!);
    }
    if (decodeMs.length === 0) throw new Error(`no frame found in ${file}`);
    results.push({
      photo: file,
      decodeMs: median(decodeMs),
      frameMs: median(frameMs),
      verdictMs: median(verdictMs),
      largestErrorPx: errorPx,
    });
  }
  return results;
}

const decode = async (path: string): Promise<RgbaRaster> => pixelsOf(sharp(path).rotate());
const blurred = async (path: string, sigma: number): Promise<RgbaRaster> =>
  pixelsOf(sharp(path).rotate().blur(sigma));

async function pixelsOf(picture: Sharp): Promise<RgbaRaster> {
  const { data, info } = await picture.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const { buffer, byteOffset, byteLength } = data;
  return {
    widthPx: info.width,
    heightPx: info.height,
    data: new Uint8ClampedArray(buffer as ArrayBuffer, byteOffset, byteLength),
  };
}

/** Nearly normal noise: the sum of four uniform numbers. */
function noisy(photo: RgbaRaster, sigma: number): RgbaRaster {
  const random = seededRandom(7);
  const data = photo.data.map((value, i) => {
    if (i % 4 === 3) return value;
    return Math.round(value + sigma * Math.sqrt(3) * (random() + random() + random() + random() - 2));
  });
  return { ...photo, data };
}

export function framesTable({
  samples: scores,
  madeUp,
  greyCards,
  hits,
  falseAlarms: alarms,
  speed,
}: FrameBench): string {
  const px = (value: number | null) => (value === null ? '-' : value.toFixed(2)).padStart(7);
  const line = (score: FrameScore) =>
    `  ${score.name.padEnd(34)} ${String(score.pictures).padStart(4)} ${String(score.within3Px).padStart(6)} ${px(score.medianErrorPx)} ${px(score.largestErrorPx)}` +
    ` ${String(score.warned).padStart(7)} ${String(score.notFound).padStart(10)} ${String(score.silentlyWrong).padStart(7)}`;
  const rate = ({ degradation, code, photos, given }: FindingRate) =>
    `  ${degradation.padEnd(34)} ${code.padEnd(18)} ${given} of ${photos}`;
  return [
    'Finding the frame (errors at 1000 px width; right = within 3 px, or warned where nothing may be trusted)',
    `  ${''.padEnd(34)} ${'n'.padStart(4)} ${'right'.padStart(6)} ${'median'.padStart(7)} ${'largest'.padStart(7)} ${'warned'.padStart(7)} ${'not found'.padStart(10)} ${'silent'.padStart(7)}`,
    ...scores.map(line),
    ...madeUp.map(line),
    `Grey card: ${greyCards.found} of ${greyCards.present} found, ${greyCards.insideCard} rectangles wholly on the card, ${greyCards.invented} invented`,
    'Photo quality: findings on degraded photos',
    ...hits.map(rate),
    'and on photos without that fault',
    ...alarms.map(rate),
    ...speed.map(
      ({ photo, decodeMs, frameMs, verdictMs, largestErrorPx }) =>
        `${photo}: decode ${decodeMs.toFixed(0)} ms, frame ${frameMs.toFixed(0)} ms, card and verdict ${verdictMs.toFixed(0)} ms, ` +
        `in all ${((decodeMs + frameMs + verdictMs) / decodeMs).toFixed(2)} x decode; corners within ${largestErrorPx.toFixed(1)} px`,
    ),
  ].join('\n');
}
