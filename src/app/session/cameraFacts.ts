/** What a camera wrote into a photo, in a part of the program of its own. */
export { readCameraFacts } from '../../core/photo-file/readCameraFacts.ts';
export { readPhotoFacts } from '../../core/photo-file/readPhotoFacts.ts';
