import type { RgbaRaster } from '../raster/rgbaRaster.ts';

/**
 * How a picture is toned before labels are looked for: `even-light` goes by ratios of light, so that the edge of a shadow over a
 * label is a smaller step than its ink; `as-seen` keeps the tones, which is better for blurred and strongly tilted labels.
 */
export type LabelTone = 'even-light' | 'as-seen';

/** A part of a photo to look for labels in, in the photo's pixels. */
export interface LabelView {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** So many pixels on a side become one; 1 is pixel for pixel. */
  readonly reduction: number;
  readonly tone: LabelTone;
}

/** Grey values, row-major, index = y * width + x. */
export interface GreyPlane {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly grey: Uint8Array;
}

/** Pixels as a reader of codes wants them: RGBA, row-major. */
export interface LabelPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/** Adds to the tones before their logarithm is taken: below it there is only noise. */
const NOISE_FLOOR = 6;

const TONES: Readonly<Record<LabelTone, Uint8Array>> = {
  'as-seen': Uint8Array.from({ length: 256 }, (_, tone) => tone),
  'even-light': Uint8Array.from({ length: 256 }, (_, tone) =>
    Math.round((255 * Math.log(tone / NOISE_FLOOR + 1)) / Math.log(255 / NOISE_FLOOR + 1)),
  ),
};

/** Luma after ITU-R BT.601, in whole numbers. */
export function greyOf({ data, widthPx, heightPx }: RgbaRaster): GreyPlane {
  const grey = new Uint8Array(widthPx * heightPx);
  for (let pixel = 0, at = 0; pixel < grey.length; pixel += 1, at += 4) {
    grey[pixel] = (77 * data[at]! + 150 * data[at + 1]! + 29 * data[at + 2]!) >> 8;
  }
  return { widthPx, heightPx, grey };
}

/** A view as a picture of its own: means of its squares of pixels, toned. A rest narrower than a square is left out. */
export function labelPicture(plane: GreyPlane, view: LabelView): LabelPicture {
  const { left, top, reduction, tone } = view;
  const [width, height] = [view.widthPx, view.heightPx].map((size) => Math.floor(size / reduction)) as [
    number,
    number,
  ];
  const tones = TONES[tone];
  const { grey, widthPx } = plane;
  const pixels = new Uint32Array(width * height);
  const area = reduction * reduction;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const corner = (top + y * reduction) * widthPx + left + x * reduction;
      let sum = 0;
      for (let row = 0; row < reduction; row += 1) {
        const start = corner + row * widthPx;
        for (let column = 0; column < reduction; column += 1) sum += grey[start + column]!;
      }
      const value = tones[(sum / area) | 0]!;
      pixels[y * width + x] = OPAQUE_GREYS[value]!;
    }
  }
  return { width, height, data: new Uint8ClampedArray(pixels.buffer) };
}

/** Pixels of each grey, in the byte order of this machine. */
const OPAQUE_GREYS = new Uint32Array(
  Uint8Array.from({ length: 1024 }, (_, at) => (at % 4 === 3 ? 255 : at >> 2)).buffer,
);
