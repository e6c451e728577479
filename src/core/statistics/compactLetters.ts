const ALPHABET = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ';

/**
 * Compact letter display: two treatments share a letter exactly when their difference is not significant.
 *
 * Insert and absorb, then letters that no pair needs are swept out (Piepho 2004). Letters follow the order given, so the
 * first treatment has an "a".
 *
 * @param size number of treatments, usually in order of falling mean
 * @param isSignificant for i < j
 * @returns for each treatment its letters in order
 * @see Piepho 2004, J. Comput. Graph. Stat. 13:456
 */
export function compactLetters(size: number, isSignificant: (i: number, j: number) => boolean): string[] {
  const differs = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => i !== j && isSignificant(Math.min(i, j), Math.max(i, j))),
  );
  const groups = sweep(insertAndAbsorb(size, differs), size, differs);
  groups.sort(compareMembers);
  return Array.from({ length: size }, (_, i) =>
    groups.flatMap((group, letter) => (group.has(i) ? [letterName(letter)] : [])).join(''),
  );
}

function letterName(index: number): string {
  return ALPHABET[index] ?? `(${index + 1})`;
}

function insertAndAbsorb(size: number, differs: readonly (readonly boolean[])[]): Set<number>[] {
  let groups: Set<number>[] = [new Set(Array.from({ length: size }, (_, i) => i))];
  for (let i = 0; i < size; i += 1) {
    for (let j = i + 1; j < size; j += 1) {
      if (!differs[i]![j]!) continue;
      const touched = groups.filter((group) => group.has(i) && group.has(j));
      if (touched.length === 0) continue;
      const kept = groups.filter((group) => !(group.has(i) && group.has(j)));
      const split = touched.flatMap((group) => [without(group, i), without(group, j)]);
      for (const candidate of split.sort((a, b) => b.size - a.size)) {
        if (!kept.some((group) => isSubset(candidate, group))) kept.push(candidate);
      }
      groups = kept;
    }
  }
  return groups;
}

/** Takes out groups all of whose pairs, and lone members, stand in another group too. */
function sweep(groups: Set<number>[], size: number, differs: readonly (readonly boolean[])[]): Set<number>[] {
  const shared = new Int32Array(size * size);
  const add = (group: Set<number>, by: number): void => {
    for (const i of group) for (const j of group) shared[i * size + j]! += by;
  };
  for (const group of groups) add(group, 1);
  const bySize = [...groups].sort((a, b) => a.size - b.size);
  const kept = new Set(groups);
  for (const group of bySize) {
    let needed = false;
    for (const i of group) {
      for (const j of group) if (shared[i * size + j]! === 1 && !differs[i]![j]!) needed = true;
    }
    if (needed) continue;
    add(group, -1);
    kept.delete(group);
  }
  return groups.filter((group) => kept.has(group));
}

function without(group: Set<number>, member: number): Set<number> {
  const rest = new Set(group);
  rest.delete(member);
  return rest;
}

function isSubset(a: Set<number>, b: Set<number>): boolean {
  if (a.size > b.size) return false;
  for (const member of a) if (!b.has(member)) return false;
  return true;
}

function compareMembers(a: Set<number>, b: Set<number>): number {
  const left = [...a].sort((x, y) => x - y);
  const right = [...b].sort((x, y) => x - y);
  for (let i = 0; i < Math.min(left.length, right.length); i += 1) {
    if (left[i] !== right[i]) return left[i]! - right[i]!;
  }
  return left.length - right.length;
}
