import { z } from 'zod';
import type { PlotFrame } from '../geometry/plotFrame.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../geometry/points.ts';
import { isCalendarDay } from '../trial/calendarDay.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../trial/defaultClasses.ts';
import type { GapRule } from '../trial/trial.ts';
import { coverClassesFromIds } from './coverClassesFromIds.ts';

/** The version this program writes, and the newest it reads. */
export const ANNOTATIONS_VERSION = 1;

/** A line painted on a photo with a round brush; the pixels under it show the class. */
export interface Stroke {
  readonly classId: string;
  /** 0 labels single pixels: (floor x, floor y) of each point. */
  readonly radiusPx: number;
  readonly points: readonly PhotoPoint[];
}

/** What an observer saw at a point. */
export interface PointCall {
  readonly at: PhotoPoint;
  /** Null: the observer looked and could not tell. */
  readonly classId: string | null;
  readonly observer: string | null;
  /** Instant, ISO 8601; null where it was not kept. */
  readonly calledAt: string | null;
  /** The rule for small gaps that was shown to the observer; null where it was not kept. */
  readonly gapRule: GapRule | null;
}

/** What a person marked on one photo; null or empty where nothing was marked. */
export interface PhotoAnnotation {
  readonly plot: string | null;
  readonly ratingDate: string | null;
  readonly frame: PlotFrame | null;
  /** Left, top, width, height of the neutral reference. */
  readonly neutral: readonly [number, number, number, number] | null;
  readonly ignored: readonly (readonly PhotoPoint[])[];
  readonly strokes: readonly Stroke[];
  readonly pointCalls: readonly PointCall[];
}

export interface PhotoAnnotations {
  readonly classes: readonly CoverClass[];
  /** By the photo's name. */
  readonly photos: ReadonlyMap<string, PhotoAnnotation>;
}

/** Which sentence of the catalogue says what a field may hold. */
export type AllowedInField =
  | 'known-field'
  | 'text'
  | 'day'
  | 'corners'
  | 'size'
  | 'rectangle'
  | 'polygons'
  | 'class'
  | 'radius'
  | 'point'
  | 'points'
  | 'list'
  | 'instant'
  | 'gap-size'
  | 'photo';

/** Why an annotations file as a whole is not read. */
export type AnnotationsProblem =
  | { readonly code: 'not-json'; readonly detail: string }
  | { readonly code: 'other-type'; readonly met: string }
  | { readonly code: 'newer-version'; readonly met: number; readonly newest: number }
  | { readonly code: 'bad-version'; readonly met: string }
  | { readonly code: 'bad-classes'; readonly met: string }
  | { readonly code: 'bad-photos'; readonly met: string }
  | { readonly code: 'unknown-field'; readonly field: string };

/** One field of one photo that cannot be; `field` is a path such as `strokes[2].radiusPx`. */
export interface AnnotationFieldProblem {
  readonly photo: string;
  readonly field: string;
  readonly met: string;
  readonly allowed: AllowedInField;
}

export type AnnotationsReading =
  | {
      readonly ok: true;
      readonly annotations: PhotoAnnotations;
      /** Photos named here are not among the annotations. */
      readonly problems: readonly AnnotationFieldProblem[];
    }
  | { readonly ok: false; readonly problem: AnnotationsProblem };

const coordinate = z.number().min(-1e6).max(1e6);
const point = z.tuple([coordinate, coordinate]);
const length = z.number().positive().max(1e6);
const name = z.string().trim().min(1).max(200);

const photoSchema = (classIds: readonly string[]) => {
  const classId = z.string().refine((id) => classIds.includes(id));
  return z.strictObject({
    plot: name.optional(),
    ratingDate: z.string().refine(isCalendarDay).optional(),
    frame: z.tuple([point, point, point, point]).optional(),
    frameSizeMm: z.tuple([length, length]).optional(),
    neutral: z.tuple([coordinate, coordinate, length, length]).optional(),
    ignore: z.array(z.array(point).min(3)).optional(),
    strokes: z
      .array(
        z.strictObject({
          class: classId,
          radiusPx: z.number().min(0).max(1000),
          points: z.array(point).min(1),
        }),
      )
      .optional(),
    pointCalls: z
      .array(
        z.strictObject({
          at: point,
          class: classId.nullable(),
          observer: name.optional(),
          calledAt: z.iso.datetime().optional(),
          gapsBelowMm: z.number().min(0).max(100).optional(),
        }),
      )
      .optional(),
  });
};

const classesSchema = z
  .array(z.string().regex(/^[\p{L}\p{N}][\p{L}\p{N} _.-]{0,63}$/u))
  .min(1)
  .max(250)
  .refine((ids) => new Set(ids).size === ids.length);

/**
 * Reads an annotations file. A photo with a field that cannot be is left out and named; the others are read.
 *
 * @param text the file, UTF-8 decoded
 */
export function readPhotoAnnotations(text: string): AnnotationsReading {
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return { ok: false, problem: { code: 'not-json', detail: (error as Error).message } };
  }
  if (!isRecord(file) || file.type !== 'photo-annotations') {
    return { ok: false, problem: { code: 'other-type', met: shown(isRecord(file) ? file.type : file) } };
  }
  const { version } = file;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return { ok: false, problem: { code: 'bad-version', met: shown(version) } };
  }
  if (version > ANNOTATIONS_VERSION) {
    return { ok: false, problem: { code: 'newer-version', met: version, newest: ANNOTATIONS_VERSION } };
  }
  const unknown = Object.keys(file).find((key) => !['type', 'version', 'classes', 'photos'].includes(key));
  if (unknown !== undefined) return { ok: false, problem: { code: 'unknown-field', field: unknown } };
  const ids = classesSchema.safeParse(file.classes ?? DEFAULT_CLASSES.map(({ id }) => id));
  if (!ids.success) return { ok: false, problem: { code: 'bad-classes', met: shown(file.classes) } };
  if (!isRecord(file.photos)) return { ok: false, problem: { code: 'bad-photos', met: shown(file.photos) } };

  const schema = photoSchema(ids.data);
  const photos = new Map<string, PhotoAnnotation>();
  const problems: AnnotationFieldProblem[] = [];
  for (const [photo, entry] of Object.entries(file.photos)) {
    const parsed = schema.safeParse(entry);
    if (parsed.success) photos.set(photo, annotationOf(parsed.data));
    else problems.push(...parsed.error.issues.map((issue) => fieldProblem(photo, entry, issue)));
  }
  return { ok: true, annotations: { classes: coverClassesFromIds(ids.data), photos }, problems };
}

/** The file for these annotations, a line for each photo; what is null or empty is left out. */
export function writePhotoAnnotations({ classes, photos }: PhotoAnnotations): string {
  const entries = [...photos].map(
    ([photo, annotation]) => `  ${JSON.stringify(photo)}: ${JSON.stringify(entryOf(annotation))}`,
  );
  return [
    '{',
    `"type": "photo-annotations", "version": ${ANNOTATIONS_VERSION},`,
    `"classes": ${JSON.stringify(classes.map(({ id }) => id))},`,
    `"photos": {${entries.length > 0 ? `\n${entries.join(',\n')}\n` : ''}}`,
    '}\n',
  ].join('\n');
}

type Entry = z.infer<ReturnType<typeof photoSchema>>;

const pointOf = ([x, y]: readonly [number, number]): PhotoPoint => photoPoint(x, y);

const gapRuleOf = (gapsBelowMm: number): GapRule =>
  gapsBelowMm === 0
    ? { kind: 'every-pixel' }
    : { kind: 'small-patches-to-surroundings', smallerThanMm: gapsBelowMm };

function annotationOf(entry: Entry): PhotoAnnotation {
  const corners = entry.frame?.map(pointOf) as Quadrilateral<'photo'> | undefined;
  return {
    plot: entry.plot ?? null,
    ratingDate: entry.ratingDate ?? null,
    frame: corners ? { corners, sizeMm: entry.frameSizeMm ?? null } : null,
    neutral: entry.neutral ?? null,
    ignored: (entry.ignore ?? []).map((polygon) => polygon.map(pointOf)),
    strokes: (entry.strokes ?? []).map(({ class: classId, radiusPx, points }) => ({
      classId,
      radiusPx,
      points: points.map(pointOf),
    })),
    pointCalls: (entry.pointCalls ?? []).map(({ at, class: classId, observer, calledAt, gapsBelowMm }) => ({
      at: pointOf(at),
      classId,
      observer: observer ?? null,
      calledAt: calledAt ?? null,
      gapRule: gapsBelowMm === undefined ? null : gapRuleOf(gapsBelowMm),
    })),
  };
}

function entryOf(annotation: PhotoAnnotation) {
  const { plot, ratingDate, frame, neutral, ignored, strokes, pointCalls } = annotation;
  return {
    ...(plot !== null && { plot }),
    ...(ratingDate !== null && { ratingDate }),
    ...(frame && { frame: frame.corners, ...(frame.sizeMm && { frameSizeMm: frame.sizeMm }) }),
    ...(neutral && { neutral }),
    ...(ignored.length > 0 && { ignore: ignored }),
    ...(strokes.length > 0 && {
      strokes: strokes.map(({ classId, radiusPx, points }) => ({ class: classId, radiusPx, points })),
    }),
    ...(pointCalls.length > 0 && {
      pointCalls: pointCalls.map(({ at, classId, observer, calledAt, gapRule }) => ({
        at,
        class: classId,
        ...(observer !== null && { observer }),
        ...(calledAt !== null && { calledAt }),
        ...(gapRule && { gapsBelowMm: gapRule.kind === 'every-pixel' ? 0 : gapRule.smallerThanMm }),
      })),
    }),
  };
}

function fieldProblem(photo: string, entry: unknown, issue: z.core.$ZodIssue): AnnotationFieldProblem {
  const path = issue.code === 'unrecognized_keys' ? [...issue.path, issue.keys[0]!] : issue.path;
  const met = path.reduce<unknown>(
    (value, key) => (value as Record<PropertyKey, unknown> | null | undefined)?.[key],
    entry,
  );
  const field = path
    .map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`))
    .join('')
    .replace(/^\./, '');
  const isUnknown = issue.code === 'unrecognized_keys';
  return { photo, field, met: shown(met), allowed: isUnknown ? 'known-field' : allowedAt(path) };
}

/** What the deepest named field of a path may hold. */
function allowedAt(path: readonly PropertyKey[]): AllowedInField {
  const field = path.findLast((key) => typeof key === 'string') as keyof typeof ALLOWED | undefined;
  return field === undefined ? 'photo' : ALLOWED[field];
}

const ALLOWED = {
  plot: 'text',
  ratingDate: 'day',
  frame: 'corners',
  frameSizeMm: 'size',
  neutral: 'rectangle',
  ignore: 'polygons',
  strokes: 'list',
  class: 'class',
  radiusPx: 'radius',
  points: 'points',
  pointCalls: 'list',
  at: 'point',
  observer: 'text',
  calledAt: 'instant',
  gapsBelowMm: 'gap-size',
} as const satisfies Record<string, AllowedInField>;

const LONGEST_SHOWN = 60;

function shown(value: unknown): string {
  const text = value === undefined ? 'nothing' : JSON.stringify(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
