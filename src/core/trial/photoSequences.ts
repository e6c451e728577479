import type { CalendarDay } from './calendarDay.ts';
import { groupBy } from './groupBy.ts';
import type { PhotoEvidence } from './photoEvidence.ts';

/** Photos one camera took on one day, in the order they were taken. */
export interface PhotoSequence {
  readonly photos: readonly PhotoEvidence[];
  /** Seconds from the photo before; null for the first one and where no clock tells. */
  readonly gapsS: readonly (number | null)[];
  /** The day on the camera's clock; null where no photo has a time. */
  readonly day: CalendarDay | null;
  /** False where names and times contradict each other, as two cameras taken for one do: the order then says nothing. */
  readonly inStep: boolean;
}

/** Cameras count photos up; a step back of the clock inside so many numbers is a clock that was set, not another camera. */
const SAME_CAMERA_NUMBERS = 20;
/** An untimed photo is put between neighbours whose numbers are no further apart than this. */
const NEIGHBOUR_NUMBERS = 50;
/** Before the first and after the last timed photo, only so many numbers away. */
const END_NUMBERS = 2;
const FEWEST_FOR_A_CAMERA = 3;
const SECONDS_PER_DAY = 86_400;

/**
 * Puts photos in the order they were taken, camera by camera and day by day.
 *
 * Local times are taken as written. Where every photo says how far its clock is ahead of UTC, order and gaps are free of
 * daylight-saving changes; else the camera's own numbering shows where a clock was set back. Photos without a time go where
 * their number puts them between timed ones.
 */
export function photoSequences(evidence: readonly PhotoEvidence[]): {
  readonly sequences: readonly PhotoSequence[];
  /** Photos with no place in any order. */
  readonly alone: readonly PhotoEvidence[];
} {
  const timed = evidence.filter(({ clockS }) => clockS !== null);
  const untimed = evidence.filter(({ clockS }) => clockS === null);
  const byCameraDay = groupBy(timed, (photo) => `${photo.input.device ?? ''}\n${dayIndex(photo)}`);
  const sequences = [...byCameraDay.values()].flatMap(splitByPrefix).flatMap(inOrder);
  const { filled, left } = insertUntimed(sequences, untimed);
  const numbered = groupBy(left, ({ counter }) => counter?.prefix ?? null);
  const alone = [...numbered].flatMap(([prefix, photos]) =>
    prefix === null || photos.length < FEWEST_FOR_A_CAMERA || photos.some(namesPlot) ? photos : [],
  );
  const byNumber = [...numbered.values()]
    .filter((photos) => !alone.includes(photos[0]!))
    .map((photos) => {
      const ordered = photos.sort((a, b) => a.counter!.number - b.counter!.number);
      return { photos: ordered, gapsS: ordered.map(() => null), day: null, inStep: true };
    });
  return { sequences: [...filled, ...byNumber], alone };
}

const dayIndex = ({ clockS }: PhotoEvidence) => Math.floor(clockS! / SECONDS_PER_DAY);

const namesPlot = ({ named }: PhotoEvidence) => named !== null && named.plot !== null;

/** Without a device's name, two families of file names are two cameras. */
function splitByPrefix(photos: PhotoEvidence[]): PhotoEvidence[][] {
  if (photos[0]!.input.device !== null) return [photos];
  const families = [...groupBy(photos, ({ counter }) => counter?.prefix ?? '').values()];
  return families.every((family) => family.length >= FEWEST_FOR_A_CAMERA) ? families : [photos];
}

function inOrder(photos: readonly PhotoEvidence[]): PhotoSequence[] {
  const offsets = photos.every(({ input }) => input.utcOffsetMinutes !== null);
  const instant = (photo: PhotoEvidence) =>
    photo.clockS! - (offsets ? photo.input.utcOffsetMinutes! * 60 : 0);
  const byTime = [...photos].sort(
    (a, b) => instant(a) - instant(b) || compareNames(a.input.fileName, b.input.fileName),
  );
  const oneFamily = new Set(photos.map(({ counter }) => counter?.prefix ?? null)).size === 1;
  if (!oneFamily || photos[0]!.counter === null || photos.some(namesPlot)) {
    return [sequence(byTime, instant, true)];
  }
  const byNumber = [...photos].sort((a, b) => a.counter!.number - b.counter!.number);
  const stepsBack = byNumber.flatMap((photo, index) =>
    index > 0 && instant(photo) < instant(byNumber[index - 1]!) ? [index] : [],
  );
  if (stepsBack.length === 0) return [sequence(byNumber, instant, true)];
  if (stepsBack.length > 2) return [sequence(byTime, instant, false)];
  const isOtherCamera = (index: number) =>
    byNumber[index]!.counter!.number - byNumber[index - 1]!.counter!.number > SAME_CAMERA_NUMBERS;
  const cuts = [0, ...stepsBack.filter(isOtherCamera), byNumber.length];
  return cuts.slice(1).map((end, index) => sequence(byNumber.slice(cuts[index], end), instant, true));
}

function sequence(
  photos: readonly PhotoEvidence[],
  instant: (photo: PhotoEvidence) => number,
  inStep: boolean,
): PhotoSequence {
  const gapsS = photos.map((photo, index) => {
    const gap = index === 0 ? null : instant(photo) - instant(photos[index - 1]!);
    return gap === null || gap < 0 ? null : gap;
  });
  // Times that stand still (all set by one copying, say) put nothing in order.
  const still = gapsS.filter((gap) => gap === 0).length;
  const captured = photos.find(({ captureDay }) => captureDay !== null);
  return {
    photos,
    gapsS,
    day: captured?.captureDay ?? photos[0]!.nameDate,
    inStep: inStep && still * 4 <= photos.length,
  };
}

/** Puts each untimed photo between the neighbours of its number, if that is in one sequence only. */
function insertUntimed(sequences: readonly PhotoSequence[], untimed: readonly PhotoEvidence[]) {
  const places = untimed.map((photo) => {
    const fits = sequences.flatMap((one, index) => {
      const at = placeByNumber(photo, one);
      return at === null ? [] : [{ index, at }];
    });
    return { photo, place: fits.length === 1 ? fits[0]! : null };
  });
  const filled = sequences.map((one, index): PhotoSequence => {
    const here = places.filter(({ place }) => place?.index === index);
    if (here.length === 0) return one;
    const photos: PhotoEvidence[] = [];
    const gapsS: (number | null)[] = [];
    const foundAt = (at: number) =>
      here
        .filter(({ place }) => place!.at === at)
        .map((found) => found.photo)
        .sort((a, b) => a.counter!.number - b.counter!.number);
    one.photos.forEach((photo, at) => {
      const before = foundAt(at);
      // The time between two timed photos is shared evenly among those found between: still shorter where one was taken again.
      const gap = one.gapsS[at] ?? null;
      const share = gap === null ? null : gap / (before.length + 1);
      photos.push(...before, photo);
      gapsS.push(...before.map(() => share), share);
    });
    const after = foundAt(one.photos.length);
    photos.push(...after);
    gapsS.push(...after.map(() => null));
    return { ...one, photos, gapsS };
  });
  return { filled, left: places.filter(({ place }) => place === null).map(({ photo }) => photo) };
}

/**
 * Index before which an untimed photo belongs in a sequence whose names count up; null if it does not. At either end only
 * the next numbers count.
 */
function placeByNumber(photo: PhotoEvidence, { photos, inStep }: PhotoSequence): number | null {
  const { counter } = photo;
  if (!counter || !inStep || namesPlot(photo) || photos.some(namesPlot)) return null;
  if (photos.some((one) => one.counter?.prefix !== counter.prefix)) return null;
  const numbers = photos.map((one) => one.counter!.number);
  const at = numbers.findIndex((number) => number > counter.number);
  if (at === 0) return numbers[0]! - counter.number <= END_NUMBERS ? 0 : null;
  if (at < 0) {
    const past = counter.number - numbers.at(-1)!;
    return past >= 1 && past <= END_NUMBERS ? numbers.length : null;
  }
  const [before, after] = [numbers[at - 1]!, numbers[at]!];
  return before < counter.number && after - before <= NEIGHBOUR_NUMBERS ? at : null;
}

/** By the numbers in them where the rest is alike, else by code point: no locale takes part. */
function compareNames(a: string, b: string): number {
  const [partsA, partsB] = [a.split(/(\d+)/), b.split(/(\d+)/)];
  for (let index = 0; index < Math.min(partsA.length, partsB.length); index++) {
    const [partA, partB] = [partsA[index]!, partsB[index]!];
    if (partA === partB) continue;
    const numeric = index % 2 === 1 && Number(partA) !== Number(partB);
    return numeric ? Number(partA) - Number(partB) : partA < partB ? -1 : 1;
  }
  return partsA.length - partsB.length;
}
