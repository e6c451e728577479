import type { Doubts } from '../../core/mask/reviewOrder.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';

/** What speaks against a photo's automatic figure: flags, the verdict of its check, reasons of a taught model. */
export const doubtsOf = ({ figure, verdict }: Pick<PhotoSummary, 'figure' | 'verdict'>): Doubts => ({
  flags: (figure?.flags.length ?? 0) + (verdict === 'retake' ? 1 : 0),
  reasons: figure?.reasons?.length ?? 0,
});
