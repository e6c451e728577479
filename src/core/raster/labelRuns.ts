/*
 * A label mask as bytes, for keeping: labels come in runs, and rows repeat since a model decides in cells of several
 * pixels. Each row that differs from the one above is written as runs (label, length), followed by how many rows
 * below repeat it. Lengths and counts are unsigned LEB128. 12 megapixels take some ten milliseconds and a few hundred
 * kilobytes, which a general compressor then halves in little time; over the plain labels it takes as long as
 * decoding the photo.
 */

/** @param labels row-major, index = y * widthPx + x */
export function encodeLabelRuns(labels: Uint8Array, widthPx: number): Uint8Array<ArrayBuffer> {
  if (!(widthPx >= 1) || labels.length % widthPx !== 0) {
    throw new RangeError(`${labels.length} labels are no whole rows of ${widthPx}`);
  }
  let out = new Uint8Array(4096);
  let length = 0;
  const writeCount = (count: number) => {
    let rest = count;
    while (rest > 127) {
      out[length] = (rest & 127) | 128;
      length += 1;
      rest >>>= 7;
    }
    out[length] = rest;
    length += 1;
  };
  for (let row = 0; row < labels.length; ) {
    // a run takes six bytes at most, and a row has no more runs than pixels
    if (length + 6 * (widthPx + 1) > out.length) {
      const larger = new Uint8Array(2 * out.length + 6 * (widthPx + 1));
      larger.set(out);
      out = larger;
    }
    const end = row + widthPx;
    for (let from = row; from < end; ) {
      const label = labels[from]!;
      let to = from + 1;
      while (to < end && labels[to] === label) to += 1;
      out[length] = label;
      length += 1;
      writeCount(to - from);
      from = to;
    }
    let below = end;
    while (below < labels.length && sameRow(labels, row, below, widthPx)) below += widthPx;
    writeCount((below - end) / widthPx);
    row = below;
  }
  return out.slice(0, length);
}

/** @returns null where the bytes do not make a mask of this size */
export function decodeLabelRuns(
  bytes: Uint8Array,
  widthPx: number,
  heightPx: number,
): Uint8Array<ArrayBuffer> | null {
  const labels = new Uint8Array(widthPx * heightPx);
  let at = 0;
  const readCount = () => {
    let count = 0;
    for (let shift = 0; shift < 35; shift += 7) {
      const byte = bytes[at];
      if (byte === undefined) return -1;
      at += 1;
      count |= (byte & 127) << shift;
      if (byte < 128) return count;
    }
    return -1;
  };
  let row = 0;
  while (row < labels.length) {
    const end = row + widthPx;
    for (let from = row; from < end; ) {
      const label = bytes[at];
      at += 1;
      const count = readCount();
      if (label === undefined || count < 1 || count > end - from) return null;
      labels.fill(label, from, from + count);
      from += count;
    }
    const repeats = readCount();
    if (repeats < 0 || repeats > (labels.length - end) / widthPx) return null;
    for (let copy = 0; copy < repeats; copy += 1) labels.copyWithin(end + copy * widthPx, row, end);
    row = end + repeats * widthPx;
  }
  return at === bytes.length ? labels : null;
}

function sameRow(labels: Uint8Array, a: number, b: number, widthPx: number): boolean {
  for (let x = 0; x < widthPx; x += 1) if (labels[a + x] !== labels[b + x]) return false;
  return true;
}
