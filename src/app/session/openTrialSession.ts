import type { OpenPart } from './sessionPart.ts';
import { TrialSession } from './trialSession.ts';

/** The part that plans the trial; it lasts as long as the session. */
export const openTrialSession: OpenPart<TrialSession> = async ({
  store,
  photos,
  parts,
  settle,
  fail,
  onClose,
}) => {
  const { now, startLabelWorker } = parts;
  const trial = new TrialSession({ store, photos, now, startLabelWorker, settle, onError: fail });
  onClose(() => trial.stop());
  await trial.load();
  return trial;
};
