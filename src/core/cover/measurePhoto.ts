import type { ClassifyOptions, CoverFlag } from '../classifier/classification.ts';
import type { CoverModel } from '../classifier/coverModel.ts';
import { classifyWithStartModel, START_MODEL_ID } from '../classifier/startModel.ts';
import type { DoubtReason } from '../classifier/taughtDoubts.ts';
import { classifyWithModel } from '../classifier/taughtModel.ts';
import { neutralGains } from '../colour/neutralGains.ts';
import { type MeasuredArea, measuredArea, withoutTransparent } from '../geometry/measuredArea.ts';
import type { PixelBox } from '../geometry/pixelBox.ts';
import { boxRound } from '../geometry/pixelBox.ts';
import { type FrameProblem, frameProblem, type PlotFrame } from '../geometry/plotFrame.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { GapRule } from '../trial/trial.ts';
import { type CoverShare, coverOfMask } from './coverOfMask.ts';
import { type TurfColour, turfColour } from './turfColour.ts';

/** What a person settled about one photo before it is measured. Stored with the figure. */
export interface MeasureSettings {
  readonly classes: readonly CoverClass[];
  readonly frame: PlotFrame | null;
  /** Polygons left out. */
  readonly ignored: readonly (readonly PhotoPoint[])[];
  /** Left, top, width, height of a rectangle inside a grey card; not measured, and used as neutral grey. */
  readonly neutral: readonly [number, number, number, number] | null;
  /** What becomes of small gaps. @default every pixel counts */
  readonly gapRule?: GapRule;
  /** Id of the taught model (exchange/coverModel.ts); left out: the start model. */
  readonly modelId?: string;
}

/** A taught model with the id its figures carry. */
export interface NamedModel {
  readonly id: string;
  readonly model: CoverModel;
}

export interface MeasureOptions extends ClassifyOptions {
  /** The model that the settings name; null for the start model. @default null */
  readonly taught?: NamedModel | null;
  /** SHA-256 of the photo's bytes, by which a model finds what was painted on this photo. @default null */
  readonly photoSha256?: string | null;
}

/** Why a photo that could be decoded has no figure. */
export type MeasureProblem = FrameProblem | { readonly code: 'nothing-to-measure' };

export interface Measurement {
  readonly mask: LabelMask;
  readonly measuredPixels: number;
  readonly millimetresPerPixel: number | null;
  /** One entry a class, in the order of the settings. */
  readonly cover: readonly (CoverShare & { readonly classId: string })[];
  /** Null where none of the photo is turf. */
  readonly turfColour: TurfColour | null;
  readonly flags: readonly CoverFlag[];
  /** Why a taught model doubts the figure, worst first: the flags in more detail. Empty for the start model. */
  readonly reasons: readonly DoubtReason[];
  readonly modelId: string;
  readonly settings: MeasureSettings;
}

export type MeasureResult =
  | { readonly ok: true; readonly measurement: Measurement }
  | { readonly ok: false; readonly problem: MeasureProblem };

/** The box of pixels that measuring with these settings looks at; null for the whole photo. */
export function measuredBox({ frame, neutral }: MeasureSettings): PixelBox | null {
  if (!frame) return null;
  const xs = frame.corners.map(([x]) => x);
  const ys = frame.corners.map(([, y]) => y);
  const box = {
    left: Math.min(...xs),
    top: Math.min(...ys),
    right: Math.max(...xs),
    bottom: Math.max(...ys),
  };
  if (!neutral) return box;
  const [x, y, width, height] = neutral;
  return boxRound(box, { left: x, top: y, right: x + width + 1, bottom: y + height + 1 });
}

/** What of a photo is measured, and how its colours are balanced. */
export type PhotoPreparation =
  | {
      readonly ok: true;
      readonly area: MeasuredArea;
      /** Null without a neutral reference, or where it cannot be used. */
      readonly neutralGains: readonly [number, number, number] | null;
    }
  | { readonly ok: false; readonly problem: MeasureProblem };

/** The measured area of a photo and its neutral gains: the first step of measuring and of teaching alike. */
export function preparePhoto(raster: RgbaRaster, settings: MeasureSettings): PhotoPreparation {
  const { widthPx, heightPx } = raster;
  const { frame, ignored, neutral } = settings;
  const problem = frame && frameProblem(frame.corners, widthPx, heightPx);
  if (problem) return { ok: false, problem };
  const area = withoutTransparent(measuredArea(widthPx, heightPx, { frame, ignored, neutral }), raster.data);
  if (area.measuredPixels === 0) return { ok: false, problem: { code: 'nothing-to-measure' } };
  return { ok: true, area, neutralGains: neutral && neutralGains(raster, neutral) };
}

/**
 * One photo from its pixels to cover by class: the same function in page worker and command line.
 *
 * @throws whatever `options.betweenStrips` throws, which is how a job is cancelled; RangeError if the model given is
 *   not the one the settings name, or has other classes
 */
export async function measurePhoto(
  raster: RgbaRaster,
  settings: MeasureSettings,
  options: MeasureOptions = {},
): Promise<MeasureResult> {
  const { classes, neutral, gapRule, modelId = null } = settings;
  const { taught = null, photoSha256 = null, ...classifyOptions } = options;
  if (modelId !== (taught?.id ?? null)) {
    throw new RangeError(`the settings name the model ${modelId}, given was ${taught?.id ?? null}`);
  }
  const preparation = preparePhoto(raster, settings);
  if (!preparation.ok) return preparation;
  const { area, neutralGains } = preparation;
  const request = { raster, area, classes, neutralGains, gapRule };
  const byModel =
    taught && (await classifyWithModel(request, taught.model, { ...classifyOptions, photoSha256 }));
  const { mask, flags: found } = byModel ?? (await classifyWithStartModel(request, classifyOptions));
  const flags: CoverFlag[] = [...found];
  if (neutral && !neutralGains) flags.push('neutral-unusable');
  const cover = coverOfMask(mask, area, classes.length)!.map((share, index) => ({
    classId: classes[index]!.id,
    ...share,
  }));
  return {
    ok: true,
    measurement: {
      mask,
      measuredPixels: area.measuredPixels,
      millimetresPerPixel: area.millimetresPerPixel,
      cover,
      turfColour: turfColour(raster, mask, classes, neutralGains),
      flags,
      reasons: byModel?.reasons ?? [],
      modelId: modelId ?? START_MODEL_ID,
      settings,
    },
  };
}
