import { type Random, randomBelow, shuffled } from './repeatableRandom.ts';

/**
 * A random Latin square: rows of symbols 0..order-1, each once in every row and column.
 *
 * Jacobson and Matthews' walk over proper and improper squares. Watched at its proper squares only, it rests evenly on all
 * Latin squares of the order; here it starts from the cyclic square and ends at the order^3-th proper one, after which
 * rows, columns and symbols are put in random order (which keeps uniform what is uniform, and hides the start).
 * Cost grows with order^4.
 *
 * @param order 2 or more
 * @see Jacobson and Matthews 1996, Generating uniformly distributed random Latin squares, J. Combin. Des. 4:405-437
 */
export function randomLatinSquare(order: number, random: Random): number[][] {
  const square = walkedSquare(order, random);
  const rows = shuffled([...square.keys()], random);
  const columns = shuffled([...square.keys()], random);
  const symbols = shuffled([...square.keys()], random);
  return rows.map((row) => columns.map((column) => symbols[square[row]![column]!]!));
}

/** Incidence cube: 1 where row r, column c holds symbol s; one cell may be -1 (an improper square). */
function walkedSquare(order: number, random: Random): number[][] {
  const cube = new Int8Array(order ** 3);
  const at = (r: number, c: number, s: number) => (r * order + c) * order + s;
  for (let r = 0; r < order; r++) {
    for (let c = 0; c < order; c++) cube[at(r, c, (r + c) % order)] = 1;
  }

  /** Places along one line of the cube that hold a 1, for the move to choose among. */
  const ones = (index: (position: number) => number) => {
    const found: number[] = [];
    for (let position = 0; position < order; position++)
      if (cube[index(position)] === 1) found.push(position);
    return found;
  };
  const pick = (positions: readonly number[]) => positions[randomBelow(positions.length, random)]!;

  let improper: readonly [number, number, number] | null = null;
  for (let properSquares = 0; properSquares < order ** 3; ) {
    let r: number;
    let c: number;
    let s: number;
    if (improper) {
      [r, c, s] = improper;
    } else {
      do {
        r = randomBelow(order, random);
        c = randomBelow(order, random);
        s = randomBelow(order, random);
      } while (cube[at(r, c, s)] !== 0);
    }
    const [fixedR, fixedC, fixedS] = [r, c, s];
    const otherR = pick(ones((position) => at(position, fixedC, fixedS)));
    const otherC = pick(ones((position) => at(fixedR, position, fixedS)));
    const otherS = pick(ones((position) => at(fixedR, fixedC, position)));
    cube[at(r, c, s)]! += 1;
    cube[at(r, otherC, otherS)]! += 1;
    cube[at(otherR, c, otherS)]! += 1;
    cube[at(otherR, otherC, s)]! += 1;
    cube[at(otherR, c, s)]! -= 1;
    cube[at(r, otherC, s)]! -= 1;
    cube[at(r, c, otherS)]! -= 1;
    cube[at(otherR, otherC, otherS)]! -= 1;
    improper = cube[at(otherR, otherC, otherS)]! < 0 ? [otherR, otherC, otherS] : null;
    if (!improper) properSquares++;
  }

  return Array.from({ length: order }, (_, r) =>
    Array.from({ length: order }, (_, c) => ones((s) => at(r, c, s))[0]!),
  );
}
