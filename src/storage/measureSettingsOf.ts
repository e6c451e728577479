import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import { DEFAULT_CLASSES } from '../core/trial/defaultClasses.ts';
import type { PhotoSettingsRecord } from './records/photoRecords.ts';

/** What a photo is to be measured with. A photo without settings of its own is measured whole. */
export function measureSettingsOf(stored: PhotoSettingsRecord | undefined): MeasureSettings {
  const { frame = null, ignored = [], neutral = null, modelId } = stored ?? {};
  return { classes: DEFAULT_CLASSES, frame, ignored, neutral, ...(modelId && { modelId }) };
}

/** Whether two settings give the same figure: names and colours of classes do not matter. */
export function sameMeasureSettings(a: MeasureSettings, b: MeasureSettings): boolean {
  return essenceOf(a) === essenceOf(b);
}

const essenceOf = ({ classes, frame, ignored, neutral, modelId }: MeasureSettings): string =>
  JSON.stringify([
    classes.map(({ id, startRole }) => [id, startRole]),
    frame && [frame.corners, frame.sizeMm],
    ignored,
    neutral,
    modelId ?? null,
  ]);
