import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import { isGroundClass } from '../core/mask/gapRule.ts';
import { type CoverDefinition, definitionFor } from './coverDefinition.ts';
import type { ModelRecord } from './records/correctionRecords.ts';
import type { PhotoRecord, PhotoSettingsRecord } from './records/photoRecords.ts';
import type { CheckedTables } from './storeContext.ts';

/** What a photo is to be measured with, and whether a model was taken for it that cannot be used. */
export interface SettledMeasuring {
  readonly settings: MeasureSettings;
  /** The model it should be measured with was taught on other classes: the start model measures instead. */
  readonly modelSetAside: boolean;
}

/**
 * What a photo is to be measured with. A photo without settings of its own is measured whole.
 *
 * @param modelClassIds of the model that the settings name; undefined where it is not there
 */
export function measureSettingsOf(
  stored: PhotoSettingsRecord | undefined,
  { classes, gapRule }: CoverDefinition,
  modelClassIds: readonly string[] | undefined,
): SettledMeasuring {
  const { frame = null, ignored = [], neutral = null, modelId } = stored ?? {};
  const modelSetAside = modelClassIds !== undefined && !sameIds(classes, modelClassIds);
  return {
    settings: {
      classes,
      frame,
      ignored,
      neutral,
      ...(gapRule.kind !== 'every-pixel' && { gapRule }),
      ...(modelId !== undefined && !modelSetAside && { modelId }),
    },
    modelSetAside,
  };
}

/** The same, read from the store. Part of a larger transaction. */
export async function settledMeasuring(
  { id, trialId }: Pick<PhotoRecord, 'id' | 'trialId'>,
  tables: CheckedTables<'photoSettings' | 'models' | 'trials'>,
): Promise<SettledMeasuring> {
  const stored = await tables.photoSettings.get(id);
  const model = stored?.modelId === undefined ? undefined : await tables.models.get(stored.modelId);
  const definition = definitionFor(trialId, await tables.trials.all());
  return measureSettingsOf(stored, definition, model && classIdsOf(model));
}

/** The classes a stored model was taught on. */
export const classIdsOf = ({ content }: ModelRecord): readonly string[] =>
  (content as { classes?: readonly string[] }).classes ?? [];

const sameIds = (classes: CoverDefinition['classes'], ids: readonly string[]): boolean =>
  classes.length === ids.length && classes.every(({ id }, index) => id === ids[index]);

/** Whether two settings give the same figure: names and colours of classes do not matter. */
export function sameMeasureSettings(a: MeasureSettings, b: MeasureSettings): boolean {
  return essenceOf(a) === essenceOf(b);
}

/** Whether two settings mean the same by cover: classes that the models tell apart alike, and one rule for gaps. */
export function sameDefinition(a: MeasureSettings, b: MeasureSettings): boolean {
  return JSON.stringify(definitionEssence(a)) === JSON.stringify(definitionEssence(b));
}

const essenceOf = (settings: MeasureSettings): string => {
  const { frame, ignored, neutral, modelId } = settings;
  return JSON.stringify([
    ...definitionEssence(settings),
    frame && [frame.corners, frame.sizeMm],
    ignored,
    neutral,
    modelId ?? null,
  ]);
};

function definitionEssence({ classes, gapRule }: MeasureSettings): readonly unknown[] {
  const smallerThanMm = gapRule && gapRule.kind !== 'every-pixel' ? gapRule.smallerThanMm : 0;
  return [
    classes.map((coverClass) => [
      coverClass.id,
      coverClass.startRole,
      ...(smallerThanMm > 0 && isGroundClass(coverClass) ? ['ground'] : []),
    ]),
    ...(smallerThanMm > 0 ? [smallerThanMm] : []),
  ];
}
