import recordsAddress from '../../../sample-images/trial-records.zip?url&no-inline';
import type { OpenArchive } from '../../zip/openArchive.ts';
import { openArchive as openArchiveFile } from '../../zip/openArchive.ts';
import { blobSource } from './archive/blobSource.ts';
import { samplePhotos } from './samplePhotos.ts';
import { sha256Of } from './sha256Of.ts';

const PHOTOS = 'photos/';

/**
 * The sample trial as an archive: its records lie in a zip file, its photos beside it, each fetched when it is read.
 *
 * @throws Error where the records cannot be fetched or are no archive
 */
export async function openSampleArchive(signal: AbortSignal): Promise<OpenArchive> {
  const response = await fetch(recordsAddress, { signal });
  if (!response.ok) throw new Error(`trial-records.zip: ${response.status} ${response.statusText}`);
  const opening = await openArchiveFile(blobSource(await response.blob()), sha256Of);
  if (!opening.ok) throw new Error(`trial-records.zip: ${opening.problem.code}`);
  return withPhotosBeside(opening.archive, async (name) => {
    const photo = samplePhotos.find((one) => one.name === name);
    return photo ? new Uint8Array(await (await photo.fetch()).arrayBuffer()) : null;
  });
}

/**
 * An archive whose photos lie outside it; they are held to its list of contents like any other file.
 *
 * @param photoBytes by file name; null for a photo that is not there
 */
export function withPhotosBeside(
  archive: OpenArchive,
  photoBytes: (name: string) => Promise<Uint8Array<ArrayBuffer> | null>,
): OpenArchive {
  const listed = new Map(archive.manifest.files.map((file) => [file.path, file]));
  return {
    ...archive,
    remarks: archive.remarks.filter(
      (remark) => !(remark.code === 'file-missing' && remark.path.startsWith(PHOTOS)),
    ),
    async file(path) {
      if (!path.startsWith(PHOTOS)) return archive.file(path);
      const bytes = await photoBytes(path.slice(PHOTOS.length));
      if (!bytes) return { ok: false, problem: { code: 'file-missing', path } };
      if ((await sha256Of(bytes)) !== listed.get(path)?.sha256) {
        return { ok: false, problem: { code: 'file-changed', path } };
      }
      return { ok: true, bytes };
    },
  };
}
