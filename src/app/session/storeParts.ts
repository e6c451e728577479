/** What a session needs once it has a store: no part of the first load, for the start screen stands before it. */
export { createProjectStore } from '../../storage/projectStore.ts';
export { JobRunner } from '../measuring/jobRunner.ts';
export { MeasuringRight } from '../measuring/measuringRight.ts';
export { WorkerPool } from '../measuring/workerPool.ts';
export { inflateMask } from './inflateMask.ts';
export { readPhotoFile } from './readPhotoFile.ts';
export { TabPresence } from './tabPresence.ts';
