import type { LabelMask } from '../../core/raster/labelMask.ts';
import { decodeLabelRuns } from '../../core/raster/labelRuns.ts';
import type { AutomaticMaskRecord } from '../../storage/records/photoRecords.ts';

/** The mask out of the cache; null where it is damaged, for it can be made again. */
export async function inflateMask(record: AutomaticMaskRecord): Promise<LabelMask | null> {
  const { widthPx, heightPx, bytes } = record;
  const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  let runs: Uint8Array;
  try {
    runs = new Uint8Array(await new Response(inflated).arrayBuffer());
  } catch {
    return null;
  }
  const labels = decodeLabelRuns(runs, widthPx, heightPx);
  return labels && { widthPx, heightPx, labels };
}
