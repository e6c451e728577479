import { areaOfMask } from '../mask/areaOfMask.ts';
import { correctedMask } from '../mask/correctedMask.ts';
import { encodeCorrections } from '../mask/correctionBytes.ts';
import type { CorrectionLayer } from '../mask/correctionLayer.ts';
import { classListWith, entryTable, relabelLayer } from '../mask/relabel.ts';
import { countedAt } from '../point-grid/countedAt.ts';
import type { PointCall } from '../point-grid/pointCall.ts';
import type { PointSet } from '../point-grid/pointSet.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { coverOfMask } from './coverOfMask.ts';
import { type MeasureSettings, measurePhoto, type NamedModel } from './measurePhoto.ts';

/** A stored figure, as far as making it again needs it. */
export interface FigureToMake {
  readonly id: string;
  readonly method: 'automatic' | 'corrected' | 'points' | 'adjusted' | 'visual';
  readonly modelId: string;
  readonly measuredAt: string;
  readonly settings: MeasureSettings;
  readonly correctionsSha256: string | null;
}

/** What a photo's figures were made of, besides the photo. */
export interface MadeOf {
  readonly photoSha256: string;
  readonly models: ReadonlyMap<string, NamedModel['model']>;
  /** Null without corrections. */
  readonly corrections: { readonly layer: CorrectionLayer; readonly classIds: readonly string[] } | null;
  readonly pointSets: readonly { readonly set: PointSet; readonly calls: readonly PointCall[] }[];
}

/** Why a figure was not made again. */
export type NotMadeCode =
  /** The model it names is not there. */
  | 'model-missing'
  /** The photo's corrections have changed since. */
  | 'corrections-changed'
  | 'points-missing'
  /** It rests on other photos, or on an eye. */
  | 'not-of-this-photo'
  /** The photo can no longer be measured as it says. */
  | 'not-measurable';

export type FigureAgain =
  | {
      readonly id: string;
      readonly ok: true;
      readonly cover: readonly { readonly classId: string; readonly coverFraction: number }[];
      /** The automatic mask; null for figures without one. */
      readonly mask: LabelMask | null;
    }
  | { readonly id: string; readonly ok: false; readonly code: NotMadeCode };

type Share = { readonly classId: string; readonly coverFraction: number };

/**
 * Makes stored figures of one photo again, by the same functions that made them.
 *
 * @param sha256 of bytes, hexadecimal: page and command line each have their own
 */
export async function figuresAgain(
  raster: RgbaRaster,
  figures: readonly FigureToMake[],
  madeOf: MadeOf,
  sha256: (bytes: Uint8Array<ArrayBuffer>) => Promise<string> | string,
): Promise<FigureAgain[]> {
  // an automatic and a corrected figure often share one measurement
  const measured = new Map<string, Awaited<ReturnType<typeof measurePhoto>>>();
  const measure = async (settings: MeasureSettings) => {
    const { modelId } = settings;
    const model = modelId === undefined ? null : madeOf.models.get(modelId);
    if (model === undefined) return null;
    const key = JSON.stringify(settings);
    const before = measured.get(key);
    if (before) return before;
    const taught = model && { id: modelId!, model };
    const result = await measurePhoto(raster, settings, { taught, photoSha256: madeOf.photoSha256 });
    measured.set(key, result);
    return result;
  };

  const again = async (figure: FigureToMake): Promise<FigureAgain> => {
    const { id, method, settings } = figure;
    const failed = (code: NotMadeCode): FigureAgain => ({ id, ok: false, code });
    if (method === 'adjusted' || method === 'visual') return failed('not-of-this-photo');
    if (method === 'points') {
      const cover = coverByPoints(figure, raster, madeOf.pointSets);
      return cover ? { id, ok: true, cover, mask: null } : failed('points-missing');
    }
    const result = await measure(settings);
    if (result === null) return failed('model-missing');
    if (!result.ok) return failed('not-measurable');
    const { mask, cover } = result.measurement;
    if (method === 'automatic') return { id, ok: true, cover, mask };
    const layer = madeOf.corrections && layerFor(madeOf.corrections, settings);
    if (!layer || (await sha256(encodeCorrections(layer))) !== figure.correctionsSha256) {
      return failed('corrections-changed');
    }
    const { classes } = settings;
    const { effective } = correctedMask(mask, layer, classes.length);
    const shares = coverOfMask(effective, areaOfMask(mask, settings), classes.length)!;
    const corrected = shares.map(({ coverFraction }, index) => ({
      classId: classes[index]!.id,
      coverFraction,
    }));
    return { id, ok: true, cover: corrected, mask: null };
  };

  const made: FigureAgain[] = [];
  for (const figure of figures) made.push(await again(figure));
  return made;
}

/** The layer in the labels of the figure's classes. */
function layerFor(
  { layer, classIds }: NonNullable<MadeOf['corrections']>,
  { classes }: MeasureSettings,
): CorrectionLayer {
  const own = classes.map(({ id }) => id);
  const table = entryTable(classListWith(classIds, own), own);
  return table ? relabelLayer(layer, table) : layer;
}

/** The figure of the observer whom the figure names, from the calls there were when it was made. */
function coverByPoints(
  { modelId, measuredAt, settings }: FigureToMake,
  { widthPx, heightPx }: RgbaRaster,
  pointSets: MadeOf['pointSets'],
): Share[] | null {
  const observer = /^points called by (.*)$/su.exec(modelId)?.[1];
  const [first] = pointSets;
  if (observer === undefined || !first) return null;
  const calls = first.calls.filter(({ calledAt }) => calledAt <= measuredAt);
  const estimate = countedAt({ widthPx, heightPx }, settings, first.set, calls, observer);
  if (!estimate || estimate.points === 0) return null;
  return estimate.classes.map(({ coverFraction }, index) => ({
    classId: settings.classes[index]!.id,
    coverFraction: coverFraction!,
  }));
}
