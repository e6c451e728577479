import type { CoverClass } from '../trial/coverClass.ts';

/** Cover of one class with what belongs to it, as reports give it. */
export interface GroupCover {
  /** The reporting group. */
  readonly group: string;
  /** The class that gives the group its name, colour and letter: the one whose id it is, else its first. */
  readonly lead: CoverClass;
  /** Share of measured ground, 0..1: the sum of its classes. */
  readonly coverFraction: number;
  /** Its classes in the order of the trial. */
  readonly members: readonly { readonly coverClass: CoverClass; readonly coverFraction: number }[];
}

/** The classes by reporting group, groups in the order of their first class. */
export function classesByGroup(
  classes: readonly CoverClass[],
): readonly { readonly group: string; readonly lead: CoverClass; readonly members: readonly CoverClass[] }[] {
  const groups = new Map<string, CoverClass[]>();
  for (const coverClass of classes) {
    const members = groups.get(coverClass.reportingGroup);
    if (members) members.push(coverClass);
    else groups.set(coverClass.reportingGroup, [coverClass]);
  }
  return [...groups].map(([group, members]) => ({
    group,
    lead: members.find(({ id }) => id === group) ?? members[0]!,
    members,
  }));
}

/**
 * Cover summed by reporting group: seedheads count to the plant that bears them, discoloured leaves to theirs.
 *
 * @param cover one entry a class; a class without an entry has no figure, and so has its group
 * @returns one entry a group, null where a class of it has no figure
 */
export function coverByGroup(
  classes: readonly CoverClass[],
  cover: readonly { readonly classId: string; readonly coverFraction: number }[],
): readonly (GroupCover | null)[] {
  const shares = new Map(cover.map(({ classId, coverFraction }) => [classId, coverFraction]));
  return classesByGroup(classes).map(({ group, lead, members }) => {
    const parts: { coverClass: CoverClass; coverFraction: number }[] = [];
    let sum = 0;
    for (const coverClass of members) {
      const coverFraction = shares.get(coverClass.id);
      if (coverFraction === undefined) return null;
      parts.push({ coverClass, coverFraction });
      sum += coverFraction;
    }
    return { group, lead, coverFraction: sum, members: parts };
  });
}
