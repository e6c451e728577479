import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { AutomaticMaskRecord } from '../../storage/records/photoRecords.ts';

/** The mask out of the cache; null where it is damaged, for it can be made again. */
export async function inflateMask(record: AutomaticMaskRecord): Promise<LabelMask | null> {
  const { widthPx, heightPx } = record;
  const labels = new Uint8Array(widthPx * heightPx);
  let length = 0;
  try {
    const stream = new Blob([record.bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
    for (const reader = stream.getReader(); ; ) {
      const { done, value } = await reader.read();
      if (done) break;
      labels.set(value, length);
      length += value.length;
    }
  } catch {
    return null;
  }
  return length === labels.length ? { widthPx, heightPx, labels } : null;
}
