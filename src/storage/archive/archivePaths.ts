/**
 * Names for the files of photos inside an archive: the photo's own name where a disk can hold it, told apart by the hash
 * where two would be the same.
 *
 * @returns by photo id
 */
export function archiveNames(
  photos: readonly { readonly id: string; readonly name: string; readonly sha256: string }[],
): ReadonlyMap<string, string> {
  const plain = photos.map((photo) => ({ ...photo, plain: plainName(photo.name) }));
  const uses = new Map<string, number>();
  for (const { plain: name } of plain) {
    const stem = stemOf(name).toLowerCase();
    uses.set(stem, (uses.get(stem) ?? 0) + 1);
  }
  return new Map(
    plain.map(({ id, plain: name, sha256 }) => {
      const isAlone = uses.get(stemOf(name).toLowerCase()) === 1;
      return [id, isAlone ? name : `${sha256.slice(0, 12)}-${name}`];
    }),
  );
}

/** The name without its ending: files that belong to a photo are named after it. */
export const stemOf = (name: string): string => name.replace(/\.[^.]*$/, '');

const LONGEST = 100;

/** Letters, digits, and a few marks that every disk takes; never empty, never hidden, never a device's name. */
function plainName(name: string): string {
  const kept = name
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}._ -]/gu, '_')
    .replace(/^[. ]+|[. ]+$/g, '');
  const short = kept.length > LONGEST ? kept.slice(-LONGEST).replace(/^[. ]+/, '') : kept;
  if (short === '') return 'photo';
  return /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(short) ? `_${short}` : short;
}
