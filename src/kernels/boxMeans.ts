import { toWholeNumbers, upperAsDoubles } from './toWholeNumbers';

/**
 * How many cells that count lie in the square round each cell.
 *
 * @param measured a byte a cell
 * @param columns scratch of `width` 32-bit numbers
 * @param out a 16-bit number a cell
 */
export function boxCounts(
  measured: usize,
  width: i32,
  height: i32,
  radius: i32,
  columns: usize,
  out: usize,
): void {
  memory.fill(columns, 0, <usize>width << 2);
  for (let y = -radius; y < height; y += 1) {
    if (y + radius < height) countRow(columns, measured + <usize>((y + radius) * width), width, 1);
    if (y - radius > 0) countRow(columns, measured + <usize>((y - radius - 1) * width), width, -1);
    if (y < 0) continue;
    const row = out + (<usize>(y * width) << 1);
    let sum = 0;
    for (let x = 0; x < min(radius, width); x += 1) sum += load<i32>(columns + (<usize>x << 2));
    for (let x = 0; x < width; x += 1) {
      if (x + radius < width) sum += load<i32>(columns + (<usize>(x + radius) << 2));
      store<u16>(row + (<usize>x << 1), <u16>sum);
      if (x >= radius) sum -= load<i32>(columns + (<usize>(x - radius) << 2));
    }
  }
}

function countRow(columns: usize, measured: usize, width: i32, sign: i32): void {
  let x = 0;
  const signs = i16x8.splat(<i16>sign);
  for (; x + 8 <= width; x += 8) {
    const counted = v128.and(i16x8.ne(v128.load_ext<u8>(measured + <usize>x), i16x8.splat(0)), signs);
    addToColumns(columns + (<usize>x << 2), counted);
  }
  for (; x < width; x += 1) {
    const column = columns + (<usize>x << 2);
    if (load<u8>(measured + <usize>x) != 0) store<i32>(column, load<i32>(column) + sign);
  }
}

/**
 * Mean of a plane over the cells that count in the square round each cell, 0 in cells that do not count.
 *
 * @param plane a signed 16-bit number a cell, 0 where it does not count
 * @param counts from `boxCounts` with the same radius
 * @param measured a byte a cell, 0 where it does not count; address 0: all means are kept
 * @param columns scratch of 2 x `width` 32-bit numbers
 * @param out a signed 16-bit number a cell
 */
export function boxMeans(
  plane: usize,
  counts: usize,
  measured: usize,
  width: i32,
  height: i32,
  radius: i32,
  columns: usize,
  out: usize,
): void {
  const sums = columns + (<usize>width << 2);
  memory.fill(columns, 0, <usize>width << 2);
  for (let y = -radius; y < height; y += 1) {
    const entering = plane + (<usize>((y + radius) * width) << 1);
    const leaving = plane + (<usize>((y - radius - 1) * width) << 1);
    const enters = y + radius < height;
    const leaves = y - radius > 0;
    if (enters && leaves) exchangeRows(columns, entering, leaving, width);
    else if (enters) addRow(columns, entering, width);
    else if (leaves) subtractRow(columns, leaving, width);
    if (y < 0) continue;
    slidingSums(columns, sums, width, radius);
    const first = <usize>(y * width);
    meanRow(sums, counts + (first << 1), measured ? measured + first : 0, width, out + (first << 1));
  }
}

// @ts-ignore: decorator
@inline
function addToColumns(column: usize, values: v128): void {
  v128.store(column, i32x4.add(v128.load(column), i32x4.extend_low_i16x8_s(values)));
  v128.store(column, i32x4.add(v128.load(column, 16), i32x4.extend_high_i16x8_s(values)), 16);
}

function exchangeRows(columns: usize, entering: usize, leaving: usize, width: i32): void {
  let x: usize = 0;
  for (; x + 8 <= <usize>width; x += 8) {
    const enter = v128.load(entering + (x << 1));
    const leave = v128.load(leaving + (x << 1));
    const column = columns + (x << 2);
    const low = i32x4.sub(i32x4.extend_low_i16x8_s(enter), i32x4.extend_low_i16x8_s(leave));
    const high = i32x4.sub(i32x4.extend_high_i16x8_s(enter), i32x4.extend_high_i16x8_s(leave));
    v128.store(column, i32x4.add(v128.load(column), low));
    v128.store(column, i32x4.add(v128.load(column, 16), high), 16);
  }
  for (; x < <usize>width; x += 1) {
    const column = columns + (x << 2);
    store<i32>(column, load<i32>(column) + load<i16>(entering + (x << 1)) - load<i16>(leaving + (x << 1)));
  }
}

function addRow(columns: usize, row: usize, width: i32): void {
  let x: usize = 0;
  for (; x + 8 <= <usize>width; x += 8) addToColumns(columns + (x << 2), v128.load(row + (x << 1)));
  for (; x < <usize>width; x += 1) {
    const column = columns + (x << 2);
    store<i32>(column, load<i32>(column) + load<i16>(row + (x << 1)));
  }
}

function subtractRow(columns: usize, row: usize, width: i32): void {
  for (let x: usize = 0; x < <usize>width; x += 1) {
    const column = columns + (x << 2);
    store<i32>(column, load<i32>(column) - load<i16>(row + (x << 1)));
  }
}

/** Sums of the columns within `radius` of each; the row's ends cut the window off. */
function slidingSums(columns: usize, sums: usize, width: i32, radius: i32): void {
  let sum = 0;
  for (let x = 0; x < min(radius, width); x += 1) sum += load<i32>(columns + (<usize>x << 2));
  let x = 0;
  for (; x <= radius && x < width; x += 1) {
    if (x + radius < width) sum += load<i32>(columns + (<usize>(x + radius) << 2));
    store<i32>(sums + (<usize>x << 2), sum);
  }
  const ahead = columns + (<usize>radius << 2);
  const behind = columns - (<usize>(radius + 1) << 2);
  for (; x + radius < width; x += 1) {
    const at = <usize>x << 2;
    sum += load<i32>(ahead + at) - load<i32>(behind + at);
    store<i32>(sums + at, sum);
  }
  for (; x < width; x += 1) {
    const at = <usize>x << 2;
    sum -= load<i32>(behind + at);
    store<i32>(sums + at, sum);
  }
}

/** Sums by counts, rounded; 0 / 0 is not a number and becomes 0. */
function meanRow(sums: usize, counts: usize, measured: usize, width: i32, out: usize): void {
  const one = f64x2.splat(1);
  const half = f64x2.splat(0.5);
  let x: usize = 0;
  for (; x + 8 <= <usize>width; x += 8) {
    const count = v128.load(counts + (x << 1));
    const low = fourMeans(v128.load(sums + (x << 2)), i32x4.extend_low_i16x8_u(count), one, half);
    const high = fourMeans(v128.load(sums + (x << 2), 16), i32x4.extend_high_i16x8_u(count), one, half);
    let means = i16x8.narrow_i32x4_s(low, high);
    if (measured) means = v128.and(means, i16x8.ne(v128.load_ext<u8>(measured + x), i16x8.splat(0)));
    v128.store(out + (x << 1), means);
  }
  for (; x < <usize>width; x += 1) {
    const count = load<u16>(counts + (x << 1));
    const isKept = count != 0 && (measured == 0 || load<u8>(measured + x) != 0);
    const mean = isKept ? <i32>Math.floor(<f64>load<i32>(sums + (x << 2)) * (1 / <f64>count) + 0.5) : 0;
    store<i16>(out + (x << 1), <i16>mean);
  }
}

// @ts-ignore: decorator
@inline
function fourMeans(sums: v128, counts: v128, one: v128, half: v128): v128 {
  const low = f64x2.mul(f64x2.convert_low_i32x4_s(sums), f64x2.div(one, f64x2.convert_low_i32x4_s(counts)));
  const high = f64x2.mul(upperAsDoubles(sums), f64x2.div(one, upperAsDoubles(counts)));
  return toWholeNumbers(f64x2.floor(f64x2.add(low, half)), f64x2.floor(f64x2.add(high, half)));
}
