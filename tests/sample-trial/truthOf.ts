import sharp from 'sharp';

/** The true class of every pixel of a sample photo: 0 not measured, 1.. classes in order. */
export interface Truth {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly labels: Uint8Array;
}

/** @param name file name of a sample photo */
export async function truthOf(name: string): Promise<Truth> {
  const path = `sample-images/truth/${name.replace(/\.jpg$/, '.png')}`;
  const { data, info } = await sharp(path).extractChannel(0).raw().toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, labels: new Uint8Array(data) };
}

/** A square of the photo, by its middle. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/**
 * The places of a photo that are worth most, well apart from each other.
 *
 * @param worth of the square of `halfSide` round a place; 0 for a place that is out of the question
 */
export function bestPlaces(
  { widthPx, heightPx }: Truth,
  most: number,
  halfSide: number,
  worth: (x: number, y: number) => number,
): Place[] {
  const found: (Place & { readonly worth: number })[] = [];
  const margin = halfSide + 20;
  for (let y = margin; y < heightPx - margin; y += 4) {
    for (let x = margin; x < widthPx - margin; x += 4) {
      const own = worth(x, y);
      if (own > 0) found.push({ x, y, worth: own });
    }
  }
  found.sort((a, b) => b.worth - a.worth || a.y - b.y || a.x - b.x);
  const chosen: Place[] = [];
  for (const { x, y } of found) {
    if (chosen.length === most) break;
    if (chosen.every((one) => Math.hypot(one.x - x, one.y - y) > 5 * halfSide)) chosen.push({ x, y });
  }
  return chosen;
}

/** Share of the square round a place whose pixels fulfil something. */
export function shareOf(
  widthPx: number,
  halfSide: number,
  x: number,
  y: number,
  isSo: (pixel: number) => boolean,
): number {
  let count = 0;
  for (let row = y - halfSide; row <= y + halfSide; row += 1) {
    for (let column = x - halfSide; column <= x + halfSide; column += 1) {
      if (isSo(row * widthPx + column)) count += 1;
    }
  }
  return count / (2 * halfSide + 1) ** 2;
}
