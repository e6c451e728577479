import { canonicalJson } from '../../core/mask/canonicalJson.ts';
import type { RecordOf } from '../tables.ts';
import type { PhotoState } from './mergeTypes.ts';

/** Which of two sides came after the other, as far as their histories tell. */
export type Direction = 'same' | 'continued' | 'behind' | 'conflict';

/** All that one side holds of a photo. */
export interface PhotoRecords {
  readonly photo: RecordOf<'photos'>;
  readonly settings: RecordOf<'photoSettings'> | undefined;
  readonly corrections: RecordOf<'corrections'> | undefined;
  readonly layerSha256: string | undefined;
  /** By sequence. */
  readonly patches: readonly RecordOf<'correctionPatches'>[];
  readonly strokes: readonly RecordOf<'strokes'>[];
  readonly figures: readonly RecordOf<'figures'>[];
  readonly audit: readonly RecordOf<'auditEntries'>[];
}

const PLACE_FIELDS = ['plot', 'place', 'ratingDate', 'namedBy'] as const;

/**
 * Plot, place and rating date. A value that the audit of one side names as the one before shows that this side went on
 * from it; a value beside none comes from whoever has one.
 */
export function directionOfPlace(here: PhotoRecords, there: PhotoRecords): Direction {
  return together(
    PLACE_FIELDS.map((field): Direction => {
      const [a, b] = [here.photo[field], there.photo[field]];
      if (a === b) return 'same';
      const wasHere = here.audit.some((entry) => entry.field === field && entry.before === b);
      const wasThere = there.audit.some((entry) => entry.field === field && entry.before === a);
      if (wasHere !== wasThere) return wasHere ? 'behind' : 'continued';
      if (a === null || b === null) return a === null ? 'continued' : 'behind';
      // who says so matters only with what is said
      return field === 'namedBy' ? 'same' : 'conflict';
    }),
  );
}

/** Frame, ignored areas, grey card, model, and corrections: what makes the mask. */
export function directionOfMask(here: PhotoRecords, there: PhotoRecords): Direction {
  return together([directionOfSettings(here, there), directionOfCorrections(here, there)]);
}

/** Settings that a side once measured with, and has left, came before its present ones. */
function directionOfSettings(here: PhotoRecords, there: PhotoRecords): Direction {
  const [a, b] = [choicesOf(here.settings), choicesOf(there.settings)];
  if (a === b) return 'same';
  if (!here.settings || !there.settings) return here.settings ? 'behind' : 'continued';
  const measured = ({ figures }: PhotoRecords, choices: string) =>
    figures.some(({ settings }) => choicesOf(settings) === choices);
  const [wasHere, wasThere] = [measured(here, b), measured(there, a)];
  if (wasHere === wasThere) return 'conflict';
  return wasHere ? 'behind' : 'continued';
}

interface Choices {
  readonly frame: unknown;
  readonly ignored: unknown;
  readonly neutral: unknown;
  readonly modelId?: string | undefined;
}

const choicesOf = (settings: Choices | undefined): string =>
  canonicalJson(
    settings
      ? [settings.frame, settings.ignored, settings.neutral, settings.modelId ?? null]
      : [null, [], null, null],
  );

/** Gestures are kept in order: whoever has all of the other's, and more, went on from there. */
function directionOfCorrections(here: PhotoRecords, there: PhotoRecords): Direction {
  if (here.layerSha256 === there.layerSha256) return 'same';
  const [a, b] = [here.patches.map(patchText), there.patches.map(patchText)];
  const begins = (whole: readonly string[], part: readonly string[]) =>
    whole.length > part.length && part.every((patch, index) => patch === whole[index]);
  if (begins(a, b)) return 'behind';
  return begins(b, a) ? 'continued' : 'conflict';
}

const patchText = ({ sequence, patch }: RecordOf<'correctionPatches'>): string =>
  `${sequence} ${new Uint8Array(patch).join(',')}`;

/** Strokes are a set: whoever has all of the other's, and more, went on from there. */
export function directionOfStrokes(here: PhotoRecords, there: PhotoRecords): Direction {
  const [a, b] = [here, there].map(({ strokes }) => new Set(strokes.map(({ id }) => id))) as [
    Set<string>,
    Set<string>,
  ];
  const [hereHasAll, thereHasAll] = [[...b].every((id) => a.has(id)), [...a].every((id) => b.has(id))];
  if (hereHasAll && thereHasAll) return 'same';
  if (hereHasAll !== thereHasAll) return hereHasAll ? 'behind' : 'continued';
  return 'conflict';
}

/** One direction of several: those that agree, or are the same, or none. */
function together(directions: readonly Direction[]): Direction {
  const found = new Set(directions.filter((direction) => direction !== 'same'));
  if (found.size === 0) return 'same';
  return found.size === 1 ? [...found][0]! : 'conflict';
}

export function stateOf({ photo, settings, patches, strokes }: PhotoRecords): PhotoState {
  const done = patches.filter(({ undone }) => !undone);
  const last = done.at(-1);
  return {
    plot: photo.plot,
    place: photo.place,
    ratingDate: photo.ratingDate,
    gestures: done.length,
    correctedBy: last?.by ?? null,
    correctedAt: last?.at ?? null,
    settingsChangedAt: settings?.changedAt ?? null,
    strokes: strokes.length,
  };
}
