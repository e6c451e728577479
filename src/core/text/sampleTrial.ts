import { catalogue } from './catalogue.ts';
import { formatCount, formatQuantity } from './format.ts';

/** What is said of the sample trial: taking it in, working in it, taking it away. */
export const sampleTrialText = catalogue('sampleTrialText', {
  fetching: 'Fetching the sample trial…',
  progress: (done: number, all: number) =>
    `Fetching the sample trial: ${formatCount(done)} of ${formatQuantity(all, 'photo', 'photos')}`,
  progressLabel: 'Progress of the sample trial',
  cancel: 'Cancel',
  cancelled: 'Nothing was taken in.',
  failed: (reason: string) =>
    `The sample trial could not be taken in: ${reason}. Nothing was changed; try again, with a connection.`,
  otherTrial: (here: string) =>
    `There is a trial here already (${here}), and this browser keeps one at a time. Save it as an archive and remove it in Plan, or look at the sample trial in another browser.`,
  storage: (reason: string) => `This browser cannot keep the sample trial: ${reason}`,
  mark: 'Sample trial: rendered photos, invented treatments and results. Reviews, corrections and counts were made by a script.',
  short: 'Sample trial: rendered and invented.',
  remove: 'Take it away',
  removing: {
    title: 'Take the sample trial away?',
    body: 'Its plan, photos and figures go, and all that you tried on them. Photos of your own stay. It can be opened again as it was.',
    confirm: 'Take it away',
    keep: 'Keep it',
    failed: (reason: string) => `It could not be taken away: ${reason}`,
  },
});
