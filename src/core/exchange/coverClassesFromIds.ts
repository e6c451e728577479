import type { CoverClass } from '../trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../trial/defaultClasses.ts';

/** The other colours of Okabe and Ito's palette, for classes that come from a file with nothing but an id. */
const MORE_COLOURS = ['#009e73', '#56b4e9', '#e69f00', '#cc79a7', '#999999'];

/**
 * Classes for the ids that a file names: the default class of that id, else one with the id for its name, which only
 * a taught model can find.
 *
 * @param ids all different
 */
export function coverClassesFromIds(ids: readonly string[]): CoverClass[] {
  const known = new Map(DEFAULT_CLASSES.map((coverClass) => [coverClass.id, coverClass]));
  const keys = new Set(ids.flatMap((id) => known.get(id)?.key ?? []));
  let made = 0;
  return ids.map((id) => {
    const coverClass = known.get(id);
    if (coverClass) return coverClass;
    const key = [...id.toUpperCase(), ...'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'].find(
      (letter) => /[\p{L}\p{N}]/u.test(letter) && !keys.has(letter),
    );
    keys.add(key ?? '?');
    const colour = MORE_COLOURS[made % MORE_COLOURS.length]!;
    made += 1;
    return { id, name: id, reportingGroup: id, startRole: null, key: key ?? '?', colour };
  });
}
