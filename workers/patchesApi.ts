import type { MeasureSettings } from '../src/core/cover/measurePhoto.ts';
import type { PatchCover, PatchGrid } from '../src/core/frame/patchCover.ts';
import type { PlotFrame } from '../src/core/geometry/plotFrame.ts';
import type { LabelMask } from '../src/core/raster/labelMask.ts';

/** A mask to be summed by patches of its frame. Its labels are transferred: the sender no longer owns them. */
export interface PatchesRequest {
  readonly mask: LabelMask;
  /** What the mask was made with. */
  readonly settings: MeasureSettings & { readonly frame: PlotFrame };
  /** Corners of the frame, the first of them where the patches begin. */
  readonly corners: PlotFrame['corners'];
  readonly grid: PatchGrid;
}

/** The patch worker as the page sees it. */
export interface PatchesApi {
  patchCover(request: PatchesRequest): PatchCover;
}
