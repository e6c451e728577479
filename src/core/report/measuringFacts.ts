import { groupBy } from '../trial/groupBy.ts';
import type { GapRule } from '../trial/trial.ts';
import type { ReportFigure, ReportModel, ReportPhoto } from './reportSource.ts';

/** How often something holds. */
export interface Counted<T> {
  readonly value: T;
  readonly photos: number;
}

/** Who set the frame of a photo. */
export type FrameBy = NonNullable<ReportPhoto['frameBy']>;

/** A model with the photos it measured. */
export interface UsedModel {
  readonly id: string;
  /** Null for the start model. */
  readonly taught: Pick<ReportModel, 'photos' | 'agreement'> | null | 'not-recorded';
  readonly ratingDates: readonly string[];
  readonly photos: number;
}

/** How photos were measured, counted from the figures themselves. */
export interface MeasuringFacts {
  /** Photos with an automatic figure. */
  readonly photos: number;
  /** Photos of the trial's plots without one. */
  readonly unmeasured: number;
  readonly devices: readonly Counted<string | null>[];
  /** Inner size in mm; `unknown-size` for a frame without one, null for the whole photo. */
  readonly frames: readonly Counted<readonly [number, number] | 'unknown-size' | null>[];
  /** Of framed photos; null where it is not recorded. */
  readonly framesBy: readonly Counted<FrameBy | null>[];
  /** Least and most of the photos whose scale is known. */
  readonly millimetresPerPixel: readonly [number, number] | null;
  /** Photos balanced by a grey area. */
  readonly balanced: number;
  readonly gapRules: readonly Counted<GapRule>[];
  readonly models: readonly UsedModel[];
  /** Figures the program doubted. */
  readonly doubted: number;
  readonly decoders: readonly string[];
  readonly softwareVersions: readonly string[];
}

/** @returns null where no photo was measured */
export function measuringFacts(
  photos: readonly ReportPhoto[],
  models: readonly ReportModel[],
): MeasuringFacts | null {
  const measured = photos.flatMap((photo) => {
    const figure = photo.figures.automatic;
    return figure ? [{ photo, figure }] : [];
  });
  if (measured.length === 0) return null;
  const figures = measured.map(({ figure }) => figure);
  const framed = measured.filter(({ figure }) => figure.settings.frame !== null);
  const scales = figures.flatMap(({ millimetresPerPixel }) => millimetresPerPixel ?? []);
  return {
    photos: measured.length,
    unmeasured: photos.length - measured.length,
    devices: tally(measured.map(({ photo }) => photo.camera?.device ?? null)),
    frames: tally(figures.map(frameOf)),
    framesBy: tally(framed.map(({ photo }) => photo.frameBy)),
    millimetresPerPixel: scales.length > 0 ? [Math.min(...scales), Math.max(...scales)] : null,
    balanced: figures.filter(({ settings }) => settings.neutral !== null).length,
    gapRules: tally(figures.map(gapRuleOf)),
    models: usedModels(measured, models),
    doubted: figures.filter(({ flags, reasons = [] }) => flags.length + reasons.length > 0).length,
    decoders: distinct(figures.map(({ decoder }) => decoder)),
    softwareVersions: distinct(figures.map(({ softwareVersion }) => softwareVersion)),
  };
}

function frameOf({ settings: { frame } }: ReportFigure): readonly [number, number] | 'unknown-size' | null {
  if (frame === null) return null;
  return frame.sizeMm ? [frame.sizeMm[0], frame.sizeMm[1]] : 'unknown-size';
}

/** A rule that needs a scale and had none counted every pixel. */
function gapRuleOf({ settings: { gapRule }, flags }: ReportFigure): GapRule {
  const every: GapRule = { kind: 'every-pixel' };
  return flags.includes('gap-rule-needs-scale') ? every : (gapRule ?? every);
}

function usedModels(
  measured: readonly { readonly photo: ReportPhoto; readonly figure: ReportFigure }[],
  models: readonly ReportModel[],
): UsedModel[] {
  const byId = new Map(models.map((model) => [model.id, model]));
  return [...groupBy(measured, ({ figure }) => figure.modelId)].map(([id, own]) => {
    const isTaught = own.some(({ figure }) => figure.settings.modelId !== undefined);
    const model = byId.get(id);
    return {
      id,
      taught: !isTaught ? null : (model ?? 'not-recorded'),
      ratingDates: distinct(own.flatMap(({ photo }) => photo.ratingDate ?? [])),
      photos: own.length,
    };
  });
}

const distinct = (items: readonly string[]): string[] => [...new Set(items)].sort();

/** The most frequent first. */
function tally<T>(items: readonly T[]): Counted<T>[] {
  return [...groupBy(items, (item) => JSON.stringify(item)).values()]
    .map((own) => ({ value: own[0]!, photos: own.length }))
    .sort((a, b) => b.photos - a.photos);
}
