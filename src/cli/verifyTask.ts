import { inflateRawSync } from 'node:zlib';
import type { CoverModel } from '../core/classifier/coverModel.ts';
import { type FigureToMake, figuresAgain, type NotMadeCode } from '../core/cover/figureAgain.ts';
import { type CorrectionBytesProblem, decodeCorrections } from '../core/mask/correctionBytes.ts';
import type { PhotoProblem } from '../core/photo-file/photoProblem.ts';
import type { PointCall } from '../core/point-grid/pointCall.ts';
import type { PointSet } from '../core/point-grid/pointSet.ts';
import { encodeLabelRuns } from '../core/raster/labelRuns.ts';
import { decodePhoto } from './decodePhoto.ts';
import { sha256 } from './sha256.ts';

/** A figure as it was stored. */
export interface StoredFigure extends FigureToMake {
  readonly cover: readonly { readonly classId: string; readonly coverFraction: number }[];
}

/** One photo of an archive and all its figures were made of. */
export interface VerifyTask {
  readonly bytes: Uint8Array;
  readonly photoSha256: string;
  readonly figures: readonly StoredFigure[];
  readonly models: ReadonlyMap<string, CoverModel>;
  readonly corrections: { readonly bytes: Uint8Array; readonly classIds: readonly string[] } | null;
  readonly pointSets: readonly { readonly set: PointSet; readonly calls: readonly PointCall[] }[];
  /** The stored mask of one automatic figure, deflated runs of labels. */
  readonly mask: { readonly figureId: string; readonly bytes: Uint8Array } | null;
}

/** What became of one figure. */
export type FigureVerdict =
  | {
      readonly id: string;
      readonly state: 'made';
      /** Largest difference of a class from what is stored, in percentage points. */
      readonly differencePoints: number;
      /** Whether the mask is the stored one, byte by byte; null where none is stored for this figure. */
      readonly sameLabels: boolean | null;
    }
  | { readonly id: string; readonly state: 'not-made'; readonly code: NotMadeCode };

export type VerifyOutcome =
  | { readonly ok: true; readonly verdicts: readonly FigureVerdict[] }
  | { readonly ok: false; readonly problem: PhotoProblem | CorrectionBytesProblem };

/** Makes the figures of an archived photo again and holds them to the stored ones. */
export async function verifyTask(task: VerifyTask): Promise<VerifyOutcome> {
  const decoded = await decodePhoto(task.bytes);
  if (!decoded.ok) return decoded;
  const { raster } = decoded;
  const layer = task.corrections && decodeCorrections(task.corrections.bytes, raster);
  if (layer && !layer.ok) return layer;
  const { photoSha256, models, pointSets } = task;
  const corrections = layer && { layer: layer.value, classIds: task.corrections!.classIds };
  const made = await figuresAgain(
    raster,
    task.figures,
    { photoSha256, models, corrections, pointSets },
    sha256,
  );
  const stored = new Map(task.figures.map((figure) => [figure.id, figure]));
  const verdicts = made.map((again): FigureVerdict => {
    if (!again.ok) return { id: again.id, state: 'not-made', code: again.code };
    const { cover } = stored.get(again.id)!;
    const shares = new Map(again.cover.map(({ classId, coverFraction }) => [classId, coverFraction]));
    const differencePoints =
      cover.length === shares.size
        ? Math.max(
            ...cover.map(
              ({ classId, coverFraction }) => 100 * Math.abs(coverFraction - (shares.get(classId) ?? -1)),
            ),
          )
        : 100;
    const isOfMask = task.mask?.figureId === again.id && again.mask !== null;
    const sameLabels = isOfMask ? isSameMask(task.mask!.bytes, again.mask!) : null;
    return { id: again.id, state: 'made', differencePoints, sameLabels };
  });
  return { ok: true, verdicts };
}

function isSameMask(
  stored: Uint8Array,
  { labels, widthPx }: { labels: Uint8Array; widthPx: number },
): boolean {
  const runs = encodeLabelRuns(labels, widthPx);
  try {
    // runs that belong to another mask may be longer: no more is unpacked than could be the same
    return inflateRawSync(stored, { maxOutputLength: Math.max(1, runs.length) }).equals(runs);
  } catch {
    return false;
  }
}
