import { onlyHereText } from '../../core/text/field.ts';
import { openSaveTarget } from './archive/saveTarget.ts';
import { type ArchiveWork, type ExportOutcome, openArchive } from './archive.ts';
import type { OpenPart } from './sessionPart.ts';

/**
 * Saves the trial, or one rating date of it, as an archive, in one go.
 *
 * @param ratingDate left out: everything
 */
export const saveArchive =
  (ratingDate: string | undefined, onWork: (work: ArchiveWork | null) => void): OpenPart<ExportOutcome> =>
  async (context) => {
    const archive = await openArchive(context);
    const stopWatching = archive.state.subscribe(() => onWork(archive.state.get().work));
    try {
      const code = (await archive.trialCode()) ?? 'photos';
      const ending = ratingDate === undefined ? '' : `-${ratingDate}`;
      const name = `${code}-${onlyHereText.fileName}${ending}.zip`;
      const target = await openSaveTarget(name, onlyHereText.description);
      if (!target) return { state: 'cancelled' };
      return await archive.exportTrial(target, {
        withLocations: true,
        ...(ratingDate !== undefined && { ratingDate }),
      });
    } finally {
      stopWatching();
      archive.stop();
    }
  };
