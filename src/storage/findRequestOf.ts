import type { FindRequest } from '../core/quality/checkPhoto.ts';
import { trialFor } from './coverDefinition.ts';
import type { PhotoRecord, PhotoSettingsRecord } from './records/photoRecords.ts';
import type { Settings } from './settingStore.ts';
import type { CheckedTables } from './storeContext.ts';

/** What is still to be found in a photo: whatever neither a person nor a file has settled. Part of a transaction. */
export async function findRequestOf(
  { ratingDate, trialId }: Pick<PhotoRecord, 'ratingDate' | 'trialId'>,
  stored: PhotoSettingsRecord | undefined,
  tables: CheckedTables<'settings' | 'trials'>,
): Promise<FindRequest> {
  const frame = !stored?.frame && stored?.frameBy === undefined;
  return {
    frame,
    greyCard: !stored?.neutral && stored?.neutralBy === undefined,
    frameSizeMm: frame ? await frameSizeOf(ratingDate, trialId, tables) : null,
  };
}

/** The size a person gave for the frames of the date, else the one of the trial's plan. Part of a transaction. */
export async function frameSizeOf(
  ratingDate: string | null,
  trialId: string | null,
  { settings, trials }: CheckedTables<'settings' | 'trials'>,
): Promise<FindRequest['frameSizeMm']> {
  const sizes = (await settings.get('frame-sizes'))?.value as Settings['frame-sizes'] | undefined;
  const ofDate = ratingDate === null ? undefined : sizes?.[ratingDate];
  if (ofDate) return ofDate;
  const plan = trialFor(trialId, await trials.all())?.plan;
  return plan?.framePlan ? [plan.framePlan.frameWidthMm, plan.framePlan.frameLengthMm] : null;
}
