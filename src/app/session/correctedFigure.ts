import type { ClassCounts } from '../../core/cover/classCounts.ts';
import { coverOfCounts } from '../../core/cover/coverOfMask.ts';
import { encodeCorrections } from '../../core/mask/correctionBytes.ts';
import type { CorrectionLayer } from '../../core/mask/correctionLayer.ts';
import type { CorrectionSummary } from '../../core/mask/correctionSummary.ts';
import type { NewFigure } from '../../storage/figureStore.ts';
import type { Figure } from './session.ts';
import { sha256Of } from './sha256Of.ts';
import { SOFTWARE_VERSION } from './softwareVersion.ts';

/**
 * The corrected figure of a photo: the automatic one with the cover of the corrected mask.
 *
 * @param counts of the corrected mask, in the area of the automatic figure
 * @param summary of its corrections
 */
export function correctedFigure(
  automatic: Figure,
  counts: ClassCounts,
  summary: CorrectionSummary | null,
): NewFigure {
  const { id: _id, measuredAt: _at, photoSha256: _photo, correctionsSha256: _own, ...rest } = automatic;
  const cover = coverOfCounts(counts)!.map((share, index) => ({
    classId: automatic.settings.classes[index]!.id,
    ...share,
  }));
  return {
    ...rest,
    cover,
    method: 'corrected',
    softwareVersion: SOFTWARE_VERSION,
    ...(summary && { changedFraction: summary.changedFraction }),
  };
}

/** What names the corrections that are part of a figure. */
export const correctionsSha256 = (layer: CorrectionLayer): Promise<string> =>
  sha256Of(encodeCorrections(layer));
