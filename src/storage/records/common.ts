import * as z from 'zod/mini';
import type { CoverFlag } from '../../core/classifier/classification.ts';
import type { DoubtReason } from '../../core/classifier/taughtDoubts.ts';
import type { MeasureSettings } from '../../core/cover/measurePhoto.ts';
import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { GapRule } from '../../core/trial/trial.ts';
import type { FigureProblem } from '../photoSummary.ts';

/*
 * Building blocks of the record schemas. They check what comes out of the store and change nothing in it: a record
 * is handed on as it was stored, so that no field is lost on the way through. The small form of zod, for these are part
 * of the first load.
 */

export const id = z.string().check(z.minLength(1));

/** ISO 8601 instant in UTC. */
export const instant = z.iso.datetime();

/** YYYY-MM-DD. */
export const calendarDay = z.iso.date();

/** Who did it, as typed by the person; null where nobody gave a name. */
export const person = z.nullable(z.string());

export const sha256 = z.string().check(z.regex(/^[0-9a-f]{64}$/));

export const positive = z.number().check(z.positive());
export const nonNegative = z.number().check(z.nonnegative());
export const positiveInt = z.int().check(z.positive());
export const count = z.int().check(z.nonnegative());
export const sizePx = z.int().check(z.positive());
export const fraction = z.number().check(z.minimum(0), z.maximum(1));
export const bytes = z.instanceof(ArrayBuffer);

// the branded points are plain pairs in the store
export const photoPoint = z.tuple([z.number(), z.number()]) as unknown as z.ZodMiniType<PhotoPoint>;

export const plotFrame = z.object({
  corners: z.tuple([photoPoint, photoPoint, photoPoint, photoPoint]),
  sizeMm: z.nullable(z.tuple([positive, positive])),
}) as z.ZodMiniType<PlotFrame>;

export const coverClass = z.object({
  id,
  name: z.string(),
  reportingGroup: z.string(),
  startRole: z.nullable(z.enum(['dark-grass', 'light-grass', 'ground'])),
  key: z.string(),
  colour: z.string().check(z.regex(/^#[0-9a-f]{6}$/i)),
});

/** As core/trial/trial.ts has it. */
export const gapRule = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('every-pixel') }),
  z.object({ kind: z.literal('small-patches-to-surroundings'), smallerThanMm: positive }),
]) satisfies z.ZodMiniType<GapRule>;

/** What a person settled about one photo, without the classes, which belong to the trial. */
export const photoChoices = {
  frame: z.nullable(plotFrame),
  ignored: z.array(z.array(photoPoint)),
  /** Left, top, width, height. */
  neutral: z.nullable(z.tuple([z.number(), z.number(), z.number(), z.number()])),
  /** The taught model; left out: the start model. */
  modelId: z.optional(sha256),
};

export const measureSettings = z.object({
  classes: z.array(coverClass).check(z.minLength(1)),
  /** Left out: every pixel counts. */
  gapRule: z.optional(gapRule),
  ...photoChoices,
}) as unknown as z.ZodMiniType<MeasureSettings>;

// codes of flags and problems grow with the program; one that is not known here makes no record unreadable
export const coverFlag = z.string() as unknown as z.ZodMiniType<CoverFlag>;
export const doubtReason = z.looseObject({ code: z.string() }) as unknown as z.ZodMiniType<DoubtReason>;
export const figureProblem = z.looseObject({ code: z.string() }) as unknown as z.ZodMiniType<FigureProblem>;
