/** Bits of one channel in a sum of three: 64 pixels of at most 2^14 need 20. */
const CHANNEL_BITS: u64 = 21;
const CHANNEL: u64 = (1 << 21) - 1;

/**
 * Mean colour of cells of factor x factor pixels, averaged in linear light, in CIELAB.
 *
 * Pixels and `inside` are whole rows of cells: the row length is widthCells x factor.
 *
 * @param pixels 4 bytes a pixel, red first
 * @param inside a byte a pixel: 1 where measured, else 0
 * @param light linear light of a byte: 256 entries of 64 bits for red, then green 21 bits higher, then blue
 *   42 bits higher
 * @param response CIELAB response of steps 0..lastStep, 32-bit numbers
 * @param logLightness of lightness, 16-bit numbers
 * @param factors doubles: 9 from linear light to steps, then scale and foot of lightness, scales of a* and b*
 * @param lightness a 16-bit number a cell, like the other three that follow
 * @param measured a byte a cell: pixels measured
 * @param groundWeight a 32-bit number a cell: comes with the weight of one pixel, goes with that of the
 *   measured ones
 */
export function labRows(
  pixels: usize,
  inside: usize,
  widthCells: usize,
  rows: usize,
  factor: usize,
  light: usize,
  response: usize,
  lastStep: i32,
  logLightness: usize,
  factors: usize,
  lightness: usize,
  aStar: usize,
  bStar: usize,
  logOut: usize,
  measured: usize,
  groundWeight: usize,
): void {
  const rowPixels = widthCells * factor;
  const xr = load<f64>(factors);
  const xg = load<f64>(factors, 8);
  const xb = load<f64>(factors, 16);
  const yr = load<f64>(factors, 24);
  const yg = load<f64>(factors, 32);
  const yb = load<f64>(factors, 40);
  const zr = load<f64>(factors, 48);
  const zg = load<f64>(factors, 56);
  const zb = load<f64>(factors, 64);
  const lightnessScale = load<f64>(factors, 72);
  const lightnessFoot = load<f64>(factors, 80);
  const aScale = load<f64>(factors, 88);
  const bScale = load<f64>(factors, 96);
  for (let row: usize = 0; row < rows; row += 1) {
    for (let column: usize = 0; column < widthCells; column += 1) {
      const cell = row * widthCells + column;
      const first = row * factor * rowPixels + column * factor;
      let sum: u64 = 0;
      let count: u32 = 0;
      if (factor == 2 && isWholeSquare(inside + first, rowPixels)) {
        const upper = load<u64>(pixels + (first << 2));
        const lower = load<u64>(pixels + ((first + rowPixels) << 2));
        sum =
          lightOf(light, <u32>upper) +
          lightOf(light, <u32>(upper >> 32)) +
          lightOf(light, <u32>lower) +
          lightOf(light, <u32>(lower >> 32));
        count = 4;
      } else {
        for (let y: usize = 0; y < factor; y += 1) {
          const from = first + y * rowPixels;
          for (let pixel = from; pixel < from + factor; pixel += 1) {
            if (load<u8>(inside + pixel) == 0) continue;
            sum += lightOf(light, load<u32>(pixels + (pixel << 2)));
            count += 1;
          }
        }
      }
      const at = cell << 1;
      store<u8>(measured + cell, <u8>count);
      if (count == 0) {
        store<i16>(lightness + at, 0);
        store<i16>(aStar + at, 0);
        store<i16>(bStar + at, 0);
        store<i16>(logOut + at, 0);
        store<i32>(groundWeight + (cell << 2), 0);
        continue;
      }
      const share = 1 / <f64>count;
      const r = <f64>(<i32>(sum & CHANNEL)) * share;
      const g = <f64>(<i32>((sum >> CHANNEL_BITS) & CHANNEL)) * share;
      const b = <f64>(<i32>(sum >> (2 * CHANNEL_BITS))) * share;
      const xStep = <i32>(xr * r + xg * g + xb * b + 0.5);
      const yStep = <i32>(yr * r + yg * g + yb * b + 0.5);
      const zStep = <i32>(zr * r + zg * g + zb * b + 0.5);
      const fx = load<i32>(response + (<usize>min(xStep, lastStep) << 2));
      const fy = load<i32>(response + (<usize>min(yStep, lastStep) << 2));
      const fz = load<i32>(response + (<usize>min(zStep, lastStep) << 2));
      const l = <i32>Math.floor(<f64>fy * lightnessScale - lightnessFoot);
      store<i16>(lightness + at, <i16>l);
      store<i16>(logOut + at, load<i16>(logLightness + (<usize>l << 1)));
      store<i16>(aStar + at, <i16>(<i32>Math.floor(<f64>(fx - fy) * aScale + 0.5)));
      store<i16>(bStar + at, <i16>(<i32>Math.floor(<f64>(fy - fz) * bScale + 0.5)));
      const weight = groundWeight + (cell << 2);
      store<i32>(weight, load<i32>(weight) * <i32>count);
    }
  }
}

// @ts-ignore: decorator
@inline
function isWholeSquare(inside: usize, rowPixels: usize): bool {
  return (<u32>load<u16>(inside) & <u32>load<u16>(inside + rowPixels)) == 0x0101;
}

// @ts-ignore: decorator
@inline
function lightOf(light: usize, colour: u32): u64 {
  return (
    load<u64>(light + (<usize>(colour & 255) << 3)) +
    load<u64>(light + (<usize>((colour >> 8) & 255) << 3), 2048) +
    load<u64>(light + (<usize>((colour >> 16) & 255) << 3), 4096)
  );
}
