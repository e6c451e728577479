/*
 * Opening by a disc: what is left of a set of cells when a disc is moved about inside it. A digital disc of diameter n
 * holds the cells of an n x n block whose centres lie within n / 2 of the block's centre, so that a strip is left if it
 * is n cells wide or more, be n odd or even. Every step is linear in the cells, whatever the disc's size: distances go
 * down and up the columns, and each column's part of the disc is swept along the rows.
 */

/** The cells a disc covers while it stays clear of marked cells. What lies outside the grid is clear. */
export function openByDisc(
  marked: Uint8Array,
  widthCells: number,
  heightCells: number,
  diameterCells: number,
): Uint8Array<ArrayBuffer> {
  if (!(Number.isInteger(diameterCells) && diameterCells >= 1)) {
    throw new RangeError(`diameterCells must be a whole number, 1 or more, got ${diameterCells}`);
  }
  // a disc that lies half outside has its centre there
  const margin = diameterCells;
  const width = widthCells + 2 * margin;
  const height = heightCells + 2 * margin;
  const cells = new Uint8Array(width * height);
  for (let y = 0; y < heightCells; y += 1) {
    cells.set(marked.subarray(y * widthCells, (y + 1) * widthCells), (y + margin) * width + margin);
  }
  const centres = reachOfDisc(cells, width, height, diameterCells, 'centres');
  for (let i = 0; i < centres.length; i += 1) centres[i] = 1 - centres[i]!;
  const covered = reachOfDisc(centres, width, height, diameterCells, 'cells');
  const out = new Uint8Array(widthCells * heightCells);
  for (let y = 0; y < heightCells; y += 1) {
    const from = (y + margin) * width + margin;
    out.set(covered.subarray(from, from + widthCells), y * widthCells);
  }
  return out;
}

/**
 * Where a disc has a marked place in it.
 *
 * @param to `centres`: cells are marked, centres of discs are answered; `cells`: the other way round. The centre of an
 *   odd disc is a cell; that of an even one is the top left corner of the cell with its index.
 */
function reachOfDisc(
  marked: Uint8Array,
  width: number,
  height: number,
  diameter: number,
  to: 'centres' | 'cells',
): Uint8Array<ArrayBuffer> {
  const isEven = diameter % 2 === 0;
  // from a place, the nearest row or column of the other kind before it and after it
  const before = isEven && to === 'centres' ? 1 : 0;
  const after = isEven && to === 'cells' ? 1 : 0;
  const halfWidths = halfWidthsOf(diameter);
  const far = halfWidths.length;

  const below = new Uint16Array(width * height);
  const rows = new Uint16Array(width).fill(far);
  for (let y = height - 1; y >= 0; y -= 1) {
    const source = (y + after) * width;
    const row = y * width;
    const isRow = y + after < height;
    for (let x = 0; x < width; x += 1) {
      const steps = isRow && marked[source + x] === 1 ? 0 : Math.min(far, rows[x]! + 1);
      rows[x] = steps;
      below[row + x] = steps;
    }
  }

  const reached = new Uint8Array(width * height);
  const widths = new Int32Array(width);
  rows.fill(far);
  for (let y = 0; y < height; y += 1) {
    const source = (y - before) * width;
    const row = y * width;
    const isRow = y >= before;
    let isAny = false;
    for (let x = 0; x < width; x += 1) {
      const steps = isRow && marked[source + x] === 1 ? 0 : Math.min(far, rows[x]! + 1);
      rows[x] = steps;
      const nearest = Math.min(steps, below[row + x]!);
      widths[x] = nearest < far ? halfWidths[nearest]! : -1;
      if (nearest < far) isAny = true;
    }
    if (!isAny) continue;
    let last = -1;
    for (let x = before; x < width; x += 1) {
      const half = widths[x - before]!;
      if (half >= 0 && x + half > last) last = x + half;
      if (x <= last) reached[row + x] = 1;
    }
    let first = width;
    for (let x = width - 1 - after; x >= 0; x -= 1) {
      const half = widths[x + after]!;
      if (half >= 0 && x - half < first) first = x - half;
      if (x >= first) reached[row + x] = 1;
    }
  }
  return reached;
}

/** Steps of the disc to either side of its middle column's nearest cell, by rows from its middle; whole numbers only. */
function halfWidthsOf(diameter: number): number[] {
  const odd = 1 - (diameter % 2);
  const widths: number[] = [];
  for (let rows = 0; ; rows += 1) {
    const twiceRows = 2 * rows + odd;
    let half = -1;
    while ((2 * (half + 1) + odd) ** 2 + twiceRows ** 2 <= diameter ** 2) half += 1;
    if (half < 0) return widths;
    widths.push(half);
  }
}
