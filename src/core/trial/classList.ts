import { leastColourDifference } from '../colour/colourVision.ts';
import type { CoverClass } from './coverClass.ts';

/** Most classes of a trial: each needs a key, and a colour that is told from the others. */
export const MOST_CLASSES = 12;

/**
 * Colours for classes, told apart with and without red and green cones: seven of Okabe and Ito's palette (Color
 * Universal Design, 2008), and a brown and a near black that are as far from them.
 */
export const CLASS_COLOURS = [
  '#0072b2',
  '#f0e442',
  '#d55e00',
  '#009e73',
  '#cc79a7',
  '#56b4e9',
  '#e69f00',
  '#7a4a1e',
  '#3b3b3b',
] as const;

/** Closer than this (CIE 1976) two colours are hard to tell apart in a mask. Judgement; the palette's nearest are 17 apart. */
export const LEAST_COLOUR_DIFFERENCE = 15;

/** What a trial may tell apart beside its first classes, and what each kind is added to in reports. */
export const CLASS_KINDS = [
  'green-base-turf',
  'seedheads',
  'discoloured-tissue',
  'broadleaf-weeds',
  'other',
] as const;
export type ClassKind = (typeof CLASS_KINDS)[number];

/** Tissue of a living plant counts to the plant: seedheads to the lighter grass, discoloured leaves to the darker one. */
const ADDED_TO: Readonly<Partial<Record<ClassKind, CoverClass['startRole']>>> = {
  seedheads: 'light-grass',
  'discoloured-tissue': 'dark-grass',
};

/**
 * A class as it is offered first: an id from its name that no other class has, a free letter, the palette's colour that
 * is least like the others.
 */
export function newCoverClass(classes: readonly CoverClass[], kind: ClassKind, name: string): CoverClass {
  const id = freeId(classes, kind === 'other' ? name : kind);
  const role = ADDED_TO[kind];
  const host = role && classes.find(({ startRole }) => startRole === role);
  return {
    id,
    name,
    reportingGroup: host?.reportingGroup ?? id,
    startRole: null,
    key: freeKey(classes, name),
    colour: freeColour(classes),
  };
}

function freeId(classes: readonly CoverClass[], name: string): string {
  const plain = name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  const base = plain === '' ? 'class' : plain;
  const taken = new Set(classes.flatMap(({ id, reportingGroup }) => [id, reportingGroup]));
  let id = base;
  for (let count = 2; taken.has(id); count += 1) id = `${base}-${count}`;
  return id;
}

/** A letter of the name that is free, else any. */
function freeKey(classes: readonly CoverClass[], name: string): string {
  const taken = new Set(classes.map(({ key }) => key));
  const wanted = [...name.toUpperCase(), ...'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'];
  return wanted.find((key) => /^[A-Z0-9]$/.test(key) && !taken.has(key))!;
}

function freeColour(classes: readonly CoverClass[]): string {
  const distance = (colour: string) =>
    Math.min(...classes.map((other) => leastColourDifference(colour, other.colour)));
  const free = CLASS_COLOURS.filter((colour) => distance(colour) >= LEAST_COLOUR_DIFFERENCE);
  return free[0] ?? [...CLASS_COLOURS].sort((a, b) => distance(b) - distance(a))[0]!;
}

/** The classes whose colour is hard to tell from this one, for anybody. */
export const classesLikeColour = (
  classes: readonly CoverClass[],
  { id, colour }: Pick<CoverClass, 'id' | 'colour'>,
): readonly CoverClass[] =>
  classes.filter(
    (other) => other.id !== id && leastColourDifference(other.colour, colour) < LEAST_COLOUR_DIFFERENCE,
  );

/** Puts a class in the place of the one with its id, or at the end. */
export const withClass = (classes: readonly CoverClass[], changed: CoverClass): CoverClass[] =>
  classes.some(({ id }) => id === changed.id)
    ? classes.map((one) => (one.id === changed.id ? changed : one))
    : [...classes, changed];

/** Takes a class away; what was added to it stands on its own. */
export const withoutClass = (classes: readonly CoverClass[], gone: string): CoverClass[] =>
  classes
    .filter(({ id }) => id !== gone)
    .map((one) => (one.reportingGroup === gone ? { ...one, reportingGroup: one.id } : one));

/** Moves a class by some places, up being negative; as far as the list goes. */
export function movedClass(classes: readonly CoverClass[], id: string, by: number): CoverClass[] {
  const from = classes.findIndex((one) => one.id === id);
  const moved = classes.filter((one) => one.id !== id);
  const to = Math.max(0, Math.min(moved.length, from + by));
  return from < 0 ? [...classes] : [...moved.slice(0, to), classes[from]!, ...moved.slice(to)];
}
