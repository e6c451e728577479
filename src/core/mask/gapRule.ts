import type { CoverClass } from '../trial/coverClass.ts';
import type { GapRule } from '../trial/trial.ts';
import { openByDisc } from './openByDisc.ts';

/** The reporting group of bare ground, whatever a trial parts it into. */
export const BARE_GROUND_GROUP = 'bare-ground';

/** Whether a class is ground to the gap rule: by its reporting group, or because the start model takes it for ground. */
export const isGroundClass = ({ startRole, reportingGroup }: CoverClass): boolean =>
  startRole === 'ground' || reportingGroup === BARE_GROUND_GROUP;

/** Labels in a grid of square cells, row-major; 0 is not measured. */
export interface LabelCells {
  readonly widthCells: number;
  readonly heightCells: number;
  /** Side of a cell on the ground; null where the scale is not known. */
  readonly millimetresPerCell: number | null;
}

/**
 * The labels under a trial's rule for small gaps.
 *
 * Ground stays ground where a circle of the rule's diameter fits into it; all classes of ground count as one, and what
 * is not measured may be ground. Everything narrower goes to the nearest cover, cell by cell from the rim inwards: each
 * cell to the commonest class among its four neighbours that are settled already, of equal ones to the first of the trial.
 * The circle decides and not the whole patch, since in a thin stand a single cell joins gaps to one net across the photo.
 *
 * @returns the same array where nothing changes; null where the rule cannot be followed, since the scale is not known
 */
export function applyGapRule(
  labels: Uint8Array<ArrayBuffer>,
  { widthCells, heightCells, millimetresPerCell }: LabelCells,
  classes: readonly CoverClass[],
  rule: GapRule | undefined,
): Uint8Array<ArrayBuffer> | null {
  if (!rule || rule.kind === 'every-pixel') return labels;
  if (millimetresPerCell === null) return null;
  const isGround = new Uint8Array(256);
  classes.forEach((coverClass, index) => {
    if (isGroundClass(coverClass)) isGround[index + 1] = 1;
  });
  const diameter = Math.ceil(rule.smallerThanMm / millimetresPerCell);
  const covered = new Uint8Array(labels.length);
  let groundCells = 0;
  for (let cell = 0; cell < labels.length; cell += 1) {
    const label = labels[cell]!;
    if (isGround[label] === 1) groundCells += 1;
    else if (label !== 0) covered[cell] = 1;
  }
  if (groundCells === 0 || diameter < 2) return labels;

  const stays = openByDisc(covered, widthCells, heightCells, diameter);
  const gaps: number[] = [];
  for (let cell = 0; cell < labels.length; cell += 1) {
    if (isGround[labels[cell]!] === 1 && stays[cell] === 0) gaps.push(cell);
  }
  return gaps.length === 0 ? labels : fillFromRim(labels, gaps, widthCells, isGround);
}

/** The labels with the gaps given to what is nearest; a gap that touches no cover stays. */
function fillFromRim(
  labels: Uint8Array<ArrayBuffer>,
  gaps: readonly number[],
  widthCells: number,
  isGround: Uint8Array,
): Uint8Array<ArrayBuffer> {
  const filled = labels.slice();
  const isGap = new Uint8Array(labels.length);
  for (const cell of gaps) isGap[cell] = 1;
  const votes = new Uint8Array(256);
  /** The label of a neighbour that has a say, or 0. */
  const settled = (cell: number): number => {
    const label = filled[cell] ?? 0;
    return isGround[label] === 1 ? 0 : label;
  };
  let pending: readonly number[] = gaps;
  while (pending.length > 0) {
    const next: number[] = [];
    const found: number[] = [];
    for (const cell of pending) {
      const column = cell % widthCells;
      const up = settled(cell - widthCells);
      const down = settled(cell + widthCells);
      const left = column > 0 ? settled(cell - 1) : 0;
      const right = column < widthCells - 1 ? settled(cell + 1) : 0;
      const label = commonest(votes, up, down, left, right);
      if (label > 0) found.push(cell, label);
      else next.push(cell);
    }
    if (found.length === 0) break;
    // only when the whole ring is known: the order of the cells does not matter
    for (let i = 0; i < found.length; i += 2) filled[found[i]!] = found[i + 1]!;
    pending = next;
  }
  return filled;
}

function commonest(votes: Uint8Array, a: number, b: number, c: number, d: number): number {
  votes[a]! += 1;
  votes[b]! += 1;
  votes[c]! += 1;
  votes[d]! += 1;
  votes[0] = 0;
  let best = 0;
  for (const label of [a, b, c, d]) {
    if (votes[label]! > votes[best]! || (votes[label] === votes[best]! && label !== 0 && label < best))
      best = label;
  }
  votes[a] = 0;
  votes[b] = 0;
  votes[c] = 0;
  votes[d] = 0;
  return best;
}
