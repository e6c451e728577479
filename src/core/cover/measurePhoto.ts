import type { ClassifyOptions, CoverFlag } from '../classifier/classification.ts';
import { classifyWithStartModel, START_MODEL_ID } from '../classifier/startModel.ts';
import { neutralGains } from '../colour/neutralGains.ts';
import { measuredArea, type PixelBox, withoutTransparent } from '../geometry/measuredArea.ts';
import { boxRound } from '../geometry/pixelBox.ts';
import { type FrameProblem, frameProblem, type PlotFrame } from '../geometry/plotFrame.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import { type CoverShare, coverOfMask } from './coverOfMask.ts';

/** What a person settled about one photo before it is measured. Stored with the figure. */
export interface MeasureSettings {
  readonly classes: readonly CoverClass[];
  readonly frame: PlotFrame | null;
  /** Polygons left out. */
  readonly ignored: readonly (readonly PhotoPoint[])[];
  /** Left, top, width, height of a rectangle inside a grey card; not measured, and used as neutral grey. */
  readonly neutral: readonly [number, number, number, number] | null;
}

/** Why a photo that could be decoded has no figure. */
export type MeasureProblem = FrameProblem | { readonly code: 'nothing-to-measure' };

export interface Measurement {
  readonly mask: LabelMask;
  readonly measuredPixels: number;
  readonly millimetresPerPixel: number | null;
  /** One entry a class, in the order of the settings. */
  readonly cover: readonly (CoverShare & { readonly classId: string })[];
  readonly flags: readonly CoverFlag[];
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

/**
 * One photo from its pixels to cover by class: the same function in page worker and command line.
 *
 * @throws whatever `options.betweenStrips` throws, which is how a job is cancelled
 */
export async function measurePhoto(
  raster: RgbaRaster,
  settings: MeasureSettings,
  options: ClassifyOptions = {},
): Promise<MeasureResult> {
  const { widthPx, heightPx } = raster;
  const { classes, frame, ignored, neutral } = settings;
  const problem = frame && frameProblem(frame.corners, widthPx, heightPx);
  if (problem) return { ok: false, problem };
  const area = withoutTransparent(measuredArea(widthPx, heightPx, { frame, ignored, neutral }), raster.data);
  if (area.measuredPixels === 0) return { ok: false, problem: { code: 'nothing-to-measure' } };

  const gains = neutral && neutralGains(raster, neutral);
  const classification = await classifyWithStartModel(
    { raster, area, classes, neutralGains: gains },
    options,
  );
  const { mask } = classification;
  const flags: CoverFlag[] = [...classification.flags];
  if (neutral && !gains) flags.push('neutral-unusable');
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
      flags,
      modelId: START_MODEL_ID,
      settings,
    },
  };
}
