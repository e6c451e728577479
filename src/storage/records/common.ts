import * as z from 'zod';
import type { CoverFlag } from '../../core/classifier/classification.ts';
import type { MeasureSettings } from '../../core/cover/measurePhoto.ts';
import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { FigureProblem } from '../photoSummary.ts';

/*
 * Building blocks of the record schemas. They check what comes out of the store and change nothing in it: a record
 * is handed on as it was stored, so that no field is lost on the way through.
 */

export const id = z.string().min(1);

/** ISO 8601 instant in UTC. */
export const instant = z.iso.datetime();

/** YYYY-MM-DD. */
export const calendarDay = z.iso.date();

/** Who did it, as typed by the person; null where nobody gave a name. */
export const person = z.string().nullable();

export const sizePx = z.int().positive();
export const fraction = z.number().min(0).max(1);
export const bytes = z.instanceof(ArrayBuffer);

// the branded points are plain pairs in the store
export const photoPoint = z.tuple([z.number(), z.number()]) as unknown as z.ZodType<PhotoPoint>;

export const plotFrame = z.object({
  corners: z.tuple([photoPoint, photoPoint, photoPoint, photoPoint]),
  sizeMm: z.tuple([z.number().positive(), z.number().positive()]).nullable(),
}) as z.ZodType<PlotFrame>;

export const coverClass = z.object({
  id,
  name: z.string(),
  reportingGroup: z.string(),
  startRole: z.enum(['dark-grass', 'light-grass', 'ground']).nullable(),
  key: z.string(),
  colour: z.string().regex(/^#[0-9a-f]{6}$/i),
});

/** What a person settled about one photo, without the classes, which belong to the trial. */
export const photoChoices = {
  frame: plotFrame.nullable(),
  ignored: z.array(z.array(photoPoint)),
  /** Left, top, width, height. */
  neutral: z.tuple([z.number(), z.number(), z.number(), z.number()]).nullable(),
};

export const measureSettings = z.object({
  classes: z.array(coverClass).min(1),
  ...photoChoices,
}) as z.ZodType<MeasureSettings>;

// codes of flags and problems grow with the program; one that is not known here makes no record unreadable
export const coverFlag = z.string() as unknown as z.ZodType<CoverFlag>;
export const figureProblem = z.looseObject({ code: z.string() }) as unknown as z.ZodType<FigureProblem>;
