/** Side of the square tile that a pattern repeats, in CSS pixels. */
export const PATTERN_SIDE = 8;

/** Whether the mark covers a place of the tile, for each class in turn: a second sign beside the colour. */
const MARKS: readonly ((x: number, y: number) => boolean)[] = [
  (x, y) => (x + y) % 8 < 2, // lines rising to the right
  (x, y) => (x === 1 || x === 2) && (y === 1 || y === 2), // dots
  (_, y) => y % 4 === 0, // level lines
  (x, y) => (x - y + 8) % 8 < 2, // lines falling to the right
  (x, y) => x === 3 || y === 3, // squares
  (x) => x % 4 === 0, // upright lines
];

/**
 * The pattern of a class, row-major: 1 where the mark is drawn.
 *
 * @param index place of the class in its trial, from 0; patterns repeat after six
 */
export function classPattern(index: number): readonly (0 | 1)[] {
  const mark = MARKS[index % MARKS.length]!;
  return Array.from({ length: PATTERN_SIDE * PATTERN_SIDE }, (_, i) =>
    mark(i % PATTERN_SIDE, Math.floor(i / PATTERN_SIDE)) ? 1 : 0,
  );
}
