/**
 * A kind of ground cover that a trial tells apart. Classes are data: no code names a species.
 */
export interface CoverClass {
  /** Stable id in files, e.g. "weedy-grass". */
  readonly id: string;
  readonly name: string;
  /** What the class is added up with in reports. */
  readonly reportingGroup: string;
  /** Which part the start model gives this class; null where it cannot find the class without teaching. */
  readonly startRole: 'dark-grass' | 'light-grass' | 'ground' | null;
  /** One letter, shown wherever the colour is. */
  readonly key: string;
  /** sRGB, "#rrggbb". */
  readonly colour: string;
}

/** The class that is the turf itself: the dark grass; null where a trial has none. */
export function turfClass(classes: readonly CoverClass[]): CoverClass | null {
  return classes.find(({ startRole }) => startRole === 'dark-grass') ?? null;
}
