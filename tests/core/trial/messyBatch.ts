import { type AssignmentPlan, assignPhotos } from '../../../src/core/trial/assignPhotos.ts';
import { DEFAULT_FILE_NAME_PATTERNS } from '../../../src/core/trial/fileNamePattern.ts';
import type { PhotoToAssign } from '../../../src/core/trial/photoEvidence.ts';
import { writePlotLabel } from '../../../src/core/trial/plotLabel.ts';
import {
  type Random,
  randomBelow,
  repeatableRandom,
  shuffled,
} from '../../../src/core/trial/repeatableRandom.ts';
import { walkingOrder } from '../../../src/core/trial/walkingOrder.ts';

/** A made-up photo with the truth about it. */
export interface BatchPhoto extends PhotoToAssign {
  readonly truth: { readonly plot: string; readonly ratingDate: string } | null;
  /** What is the matter with it, for the message of a failing test. */
  readonly story: string;
}

export const TRIAL_CODE = 'K7QF3M';
const OTHER_TRIAL = 'ZZ9XT4';

const ROWS = 4;
const COLUMNS = 12;

/** 48 plots, 101..112 to 401..412, walked there and back by row. */
export const BATCH_PLOTS = walkingOrder(
  Array.from({ length: ROWS * COLUMNS }, (_, index) => {
    const row = Math.floor(index / COLUMNS) + 1;
    const column = (index % COLUMNS) + 1;
    return { plot: String(row * 100 + column), row, column };
  }),
);

export const BATCH_DATES = [
  '2027-04-12',
  '2027-04-26',
  '2027-05-10',
  '2027-05-24',
  '2027-06-07',
  '2027-06-21',
  '2027-07-05',
  '2027-07-19',
];

/** How one walk over the plots went wrong; chances are for each photo. */
interface WalkStory {
  readonly date: string;
  readonly startS: number;
  /** Camera's names: a counter, the plot as a person renamed it, or nothing of use. */
  readonly naming: 'counter' | 'plot' | 'dated';
  readonly firstNumber: number;
  readonly device: string | null;
  readonly labelRead: (plot: (typeof BATCH_PLOTS)[number]) => number;
  readonly retake: number;
  readonly leftOut: number;
  /** Pairs of neighbouring plots photographed in the other's turn; the first one's label can be read. */
  readonly swapped: number;
  readonly exif: 'all' | 'none' | 'some-lost';
  readonly utcOffsetMinutes: number | null;
  /** The clock is set back an hour after this many photos. */
  readonly setBackAfter: number | null;
  readonly plots: readonly (typeof BATCH_PLOTS)[number][];
  readonly overview: number;
  readonly trial: string;
}

const pad = (value: number) => String(value).padStart(2, '0');

function clock(date: string, second: number): string {
  const hms = [Math.floor(second / 3600), Math.floor(second / 60) % 60, second % 60].map(pad).join(':');
  return `${date.replaceAll('-', ':')} ${hms}`;
}

let serial = 0;

function walk(story: WalkStory, random: Random): BatchPhoto[] {
  const stops = [...story.plots];
  const moved = new Set<string>();
  const readable = (plot: (typeof BATCH_PLOTS)[number]) =>
    moved.has(plot.plot) || random() < story.labelRead(plot);
  const photos: BatchPhoto[] = [];
  let second = story.startS;
  let number = story.firstNumber;
  const pace = 22 + 25 * random();
  for (let index = 0; index + 1 < stops.length; index++) {
    if (random() < story.swapped && stops[index]!.row === stops[index + 1]!.row) {
      [stops[index], stops[index + 1]] = [stops[index + 1]!, stops[index]!];
      moved.add(stops[index]!.plot);
      index++;
    }
  }

  const shoot = (plot: (typeof BATCH_PLOTS)[number] | null, what: string) => {
    const setBack = story.setBackAfter !== null && photos.length >= story.setBackAfter ? 3600 : 0;
    const lost = story.exif === 'none' || (story.exif === 'some-lost' && random() < 0.04);
    const [name, counter] = [serial++, number++];
    const renamed = plot !== null && random() < 0.97 ? plot.plot : 'new';
    const fileName = {
      counter: `IMG_${String(counter).padStart(4, '0')}.JPG`,
      plot: `${story.date}_${renamed}.jpg`,
      dated: `photo_${story.date}_${clock(story.date, second).slice(11).replaceAll(':', '-')}.jpg`,
    }[story.naming];
    photos.push({
      photo: `p${name}`,
      fileName,
      captureTime: lost ? null : clock(story.date, second - setBack),
      utcOffsetMinutes: lost ? null : story.utcOffsetMinutes,
      device: lost ? null : story.device,
      labelTexts:
        plot && readable(plot)
          ? [writePlotLabel({ trial: story.trial, plot: plot.plot, place: null, ratingDate: null })]
          : [],
      sha256: `hash-${name}`,
      truth: plot && story.trial === TRIAL_CODE ? { plot: plot.plot, ratingDate: story.date } : null,
      story: `${story.date} ${what}${lost ? ', no Exif' : ''}`,
    });
  };

  stops.forEach((plot, index) => {
    if (random() < story.leftOut) {
      second += Math.round(6 + 6 * random());
      return;
    }
    shoot(plot, `plot ${plot.plot}`);
    if (random() < story.retake) {
      second += Math.round(4 + 9 * random());
      shoot(plot, `plot ${plot.plot} again`);
    }
    if (random() < story.overview) {
      second += Math.round(20 + 60 * random());
      shoot(null, 'overview');
    }
    const turn = stops[index + 1] && stops[index + 1]!.row !== plot.row ? 8 + 15 * random() : 0;
    const pause = random() < 0.012 ? 100 + 500 * random() : 0;
    // sum of three uniform draws: 0.55 to 1.45 of the pace, most near it
    const step = pace * (0.55 + 0.3 * (random() + random() + random()));
    second += Math.round(step + turn + pause);
  });
  return photos;
}

/** A walk with nothing the matter but a second photo now and then. */
function plainWalk(random: Random): Omit<WalkStory, 'date'> {
  return {
    startS: 9 * 3600 + randomBelow(7200, random),
    naming: 'counter',
    firstNumber: 100 + randomBelow(2000, random),
    device: 'phone A',
    labelRead: () => 0,
    retake: 0.03,
    leftOut: 0.004,
    swapped: 0,
    exif: 'all',
    utcOffsetMinutes: null,
    setBackAfter: null,
    plots: BATCH_PLOTS,
    overview: 0,
    trial: TRIAL_CODE,
  };
}

/** A season's photos in one heap, in no order: about 400, from eight walks, each with troubles of its own. */
export function messyBatch(seed: number): BatchPhoto[] {
  serial = 0;
  const random = repeatableRandom(seed);
  const always = (chance: number) => () => chance;
  const plain = plainWalk(random);
  const [d1, d2, d3, d4, d5, d6, d7, d8] = BATCH_DATES as [
    string,
    string,
    string,
    string,
    string,
    string,
    string,
    string,
  ];
  const half = BATCH_PLOTS.length / 2;
  const day = (index: number) => ({ ...plain, firstNumber: plain.firstNumber + 130 * index });
  const photos = [
    // labels, a clock that is an hour wrong all day, some swapped pairs
    ...walk(
      { ...day(0), date: d1, startS: plain.startS + 3600, labelRead: always(0.95), swapped: 0.03 },
      random,
    ),
    // renamed by hand; a few names forgotten
    ...walk({ ...day(1), date: d2, naming: 'plot', leftOut: 0.01 }, random),
    // nothing but the order, every plot taken, now and then a second photo
    ...walk({ ...day(2), date: d3, leftOut: 0, retake: 0.01 }, random),
    // a label at the start of each row, some photos without times
    ...walk(
      {
        ...day(3),
        date: d4,
        labelRead: (plot) => (plot.column === 1 || plot.column === 12 ? 1 : 0),
        leftOut: 0,
        exif: 'some-lost',
      },
      random,
    ),
    // two phones at once, one an hour ahead
    ...walk({ ...day(4), date: d5, labelRead: always(0.9), plots: BATCH_PLOTS.slice(0, half) }, random),
    ...walk(
      {
        ...day(4),
        date: d5,
        labelRead: always(0.9),
        device: 'phone B',
        firstNumber: 4000,
        startS: plain.startS + 3600,
        plots: BATCH_PLOTS.slice(half),
      },
      random,
    ),
    // sent by message: no Exif, but the time in the name
    ...walk({ ...day(5), date: d6, naming: 'dated', exif: 'none', labelRead: always(0.95) }, random),
    // clocks go back during the walk
    ...walk(
      { ...day(6), date: d7, labelRead: always(0.7), setBackAfter: 10 + randomBelow(25, random) },
      random,
    ),
    // pictures of the whole field between, and then another trial's plots
    ...walk(
      { ...day(7), date: d8, labelRead: always(0.93), leftOut: 0, overview: 0.03, utcOffsetMinutes: 600 },
      random,
    ),
    ...walk(
      {
        ...day(7),
        date: d8,
        labelRead: always(0.93),
        firstNumber: 3000,
        startS: plain.startS + 5 * 3600,
        plots: BATCH_PLOTS.slice(0, 8),
        trial: OTHER_TRIAL,
      },
      random,
    ),
  ];
  const copies = photos
    .filter(() => random() < 0.01)
    .map((photo) => ({
      ...photo,
      photo: `${photo.photo}-copy`,
      fileName: `copy of ${photo.fileName}`,
      story: `${photo.story}, copied`,
    }));
  return shuffled([...photos, ...copies], random);
}

/** One walk with only its order to go by, by a person who leaves plots out and photographs other things as well. */
export function untidyWalk(seed: number): BatchPhoto[] {
  serial = 0;
  const random = repeatableRandom(seed);
  return walk({ ...plainWalk(random), date: BATCH_DATES[0]!, leftOut: 0.005, overview: 0.01 }, random);
}

/** The plan that the photos of a batch go into. */
export const BATCH_PLAN: AssignmentPlan = {
  trialCode: TRIAL_CODE,
  walkingOrder: BATCH_PLOTS.map(({ plot }) => plot),
  placesPerPlot: 1,
  ratingDates: BATCH_DATES,
  fileNamePatterns: [...DEFAULT_FILE_NAME_PATTERNS, 'photo_{date}_{time}'],
  orderTrusted: true,
  dateOfUndated: null,
  alreadyThere: [],
};

/** How many photos of a batch went to their plot, and what was certain or double and wrong. */
export function batchOutcome(batch: readonly BatchPhoto[], plan: AssignmentPlan) {
  const assignments = assignPhotos(batch, plan);
  const right: BatchPhoto[] = [];
  const wrong: string[] = [];
  let ofPlots = 0;
  batch.forEach((photo, index) => {
    const { plot, ratingDate, certainty } = assignments[index]!;
    const same = photo.truth !== null && plot === photo.truth.plot && ratingDate === photo.truth.ratingDate;
    if (photo.truth) ofPlots++;
    if (certainty === 'doubtful') return;
    if (same) right.push(photo);
    else wrong.push(`${photo.story}: ${plot} on ${ratingDate}, ${certainty}`);
  });
  return { share: right.length / ofPlots, wrong, ofPlots };
}
