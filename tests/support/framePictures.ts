import { homographyBetween, mapPoint } from '../../src/core/geometry/homography.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { seededRandom } from './seededRandom.ts';

type Corners = Quadrilateral<'photo'>;

/** A photo with what is known of its frame: inner corners, or null where no frame may be trusted. */
export interface FramePicture {
  readonly kind: string;
  readonly raster: RgbaRaster;
  readonly corners: Corners | null;
  /** Whether the finder has to warn or find nothing: two frames, a corner out of the picture, no frame. */
  readonly needsWarning: boolean;
}

/** The pipe of the sample photos is this wide, as a share of the frame's side. */
const PIPE_SHARE = 0.042;

/**
 * Pictures made from one photo with a frame, by warping and painting; the same for the same photo and seed.
 *
 * What is painted is plain: turf copied over the pipe, multiplied colours, a dark shape for a foot.
 */
export function framePictures(photo: RgbaRaster, corners: Corners, seed: number): FramePicture[] {
  const random = seededRandom(seed);
  const found = (kind: string, raster: RgbaRaster, at: Corners = corners): FramePicture => ({
    kind,
    raster,
    corners: at,
    needsWarning: false,
  });
  const side = Math.floor(4 * random());
  const sideAfter = (side + 1 + Math.floor(3 * random())) % 4;
  const pictures = [
    found('pipe white', tintedPipe(photo, corners, [1, 1.01, 1.25])),
    found('pipe grey', tintedPipe(photo, corners, [0.55, 0.56, 0.68])),
    found('pipe dark grey', tintedPipe(photo, corners, [0.3, 0.3, 0.36])),
    found('pipe yellow', tintedPipe(photo, corners, [0.95, 0.8, 0.25])),
    found('pipe red', tintedPipe(photo, corners, [0.8, 0.25, 0.25])),
    found('pipe blue', tintedPipe(photo, corners, [0.25, 0.4, 0.9])),
    found('pipe of low contrast', tintedPipe(photo, corners, [0.45, 0.48, 0.36])),
    found('30 % of a side under grass', grassOver(photo, corners, side, 0.3, random)),
    found(
      'two sides half under grass',
      grassOver(grassOver(photo, corners, side, 0.5, random), corners, sideAfter, 0.5, random),
    ),
    found('shadow across', shadowAcross(photo, corners, 0.35, random)),
    found('foot on a side', footOn(photo, corners, side, 0.3 + 0.4 * random())),
    found('foot on a corner', footOn(photo, corners, side, 0.01)),
    found('darker by two stops', scaledColours(photo, 0.5)),
    { kind: 'corner out of the picture', raster: shifted(photo, corners), corners: null, needsWarning: true },
    { kind: 'two frames', raster: twice(photo), corners: null, needsWarning: true },
    { kind: 'no frame', raster: insideOnly(photo, corners), corners: null, needsWarning: true },
  ];
  for (const degrees of [5, 10, 15]) {
    const tilted = tilt(photo, corners, degrees, 2 * Math.PI * random(), 12 * (random() - 0.5));
    pictures.push(found(`tilted by ${degrees} degrees more`, tilted.raster, tilted.corners));
  }
  return pictures;
}

const copyOf = (photo: RgbaRaster): RgbaRaster => ({ ...photo, data: photo.data.slice() });

const lengthOf = (a: PhotoPoint, b: PhotoPoint): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Distance outward from the nearest inner side, at most the pipe's width away; null elsewhere. */
function pipeDistance(corners: Corners): (x: number, y: number) => number | null {
  const lines = corners.map((a, i) => {
    const b = corners[(i + 1) % 4]!;
    const length = lengthOf(a, b);
    return { a, nx: (b[1] - a[1]) / length, ny: -(b[0] - a[0]) / length, length };
  });
  const width = (lines.reduce((sum, { length }) => sum + length, 0) / 4) * PIPE_SHARE;
  return (x, y) => {
    let most = Number.NEGATIVE_INFINITY;
    for (const { a, nx, ny } of lines) most = Math.max(most, (x - a[0]) * nx + (y - a[1]) * ny);
    return most > -1.5 && most < 1.12 * width ? most : null;
  };
}

/**
 * Multiplies the colours of the pipe; blades that lie across it keep theirs, and pixels on its edge change in part.
 *
 * How much of a pixel is pipe is told from red over green, between the turf's own ratio and the pipe's.
 */
export function tintedPipe(
  photo: RgbaRaster,
  corners: Corners,
  tint: readonly [number, number, number],
): RgbaRaster {
  const result = copyOf(photo);
  const distance = pipeDistance(corners);
  const ratioAt = (at: number) => photo.data[at]! / (photo.data[at + 1]! + 1);
  const [onPipe, inside]: [number[], number[]] = [[], []];
  const width = PIPE_SHARE * lengthOf(corners[0], corners[1]);
  for (let k = 0; k < 400; k += 1) {
    const [a, b] = [corners[k % 4]!, corners[(k + 1) % 4]!];
    const share = 0.1 + (0.8 * k) / 400;
    const length = lengthOf(a, b);
    const at = (out: number) => {
      const x = Math.floor(a[0] + share * (b[0] - a[0]) + (out * (b[1] - a[1])) / length);
      const y = Math.floor(a[1] + share * (b[1] - a[1]) - (out * (b[0] - a[0])) / length);
      return 4 * (y * photo.widthPx + x);
    };
    onPipe.push(ratioAt(at(0.5 * width)));
    inside.push(ratioAt(at(-width)));
  }
  const middle = (values: number[]) => values.sort((p, q) => p - q)[values.length >> 1]!;
  const [pipe, turf] = [middle(onPipe), middle(inside)];
  forEachPixel(result, (x, y, at) => {
    if (distance(x + 0.5, y + 0.5) === null) return;
    // half a pixel of the lighter pipe moves the ratio by three quarters: the square makes up for it
    const share = Math.min(1, Math.max(0, (ratioAt(at) - turf) / (pipe - turf))) ** 2;
    for (let c = 0; c < 3; c += 1) {
      result.data[at + c] = photo.data[at + c]! * (1 + share * (tint[c]! - 1));
    }
  });
  return result;
}

/** Copies turf from inside the frame over a share of one side's pipe, in ragged tufts. */
export function grassOver(
  photo: RgbaRaster,
  corners: Corners,
  side: number,
  share: number,
  random: () => number,
): RgbaRaster {
  const result = copyOf(photo);
  const [a, b] = [corners[side]!, corners[(side + 1) % 4]!];
  const length = lengthOf(a, b);
  const [dx, dy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const width = length * PIPE_SHARE;
  const start = (0.1 + (0.8 - share) * random()) * length;
  const reach = 3 * width;
  // each column across the pipe is covered from the inside to a ragged height past the pipe
  for (let u = start; u < start + share * length; u += 0.5) {
    const cover = width * (1.1 + 0.4 * random());
    for (let out = -2; out < cover; out += 0.5) {
      const x = Math.floor(a[0] + dx * u + dy * out);
      const y = Math.floor(a[1] + dy * u - dx * out);
      const fromX = Math.floor(a[0] + dx * u - dy * (reach - out));
      const fromY = Math.floor(a[1] + dy * u + dx * (reach - out));
      copyPixel(photo, fromX, fromY, result, x, y);
    }
  }
  return result;
}

function copyPixel(
  from: RgbaRaster,
  fromX: number,
  fromY: number,
  to: RgbaRaster,
  x: number,
  y: number,
): void {
  if (x < 0 || y < 0 || x >= to.widthPx || y >= to.heightPx) return;
  if (fromX < 0 || fromY < 0 || fromX >= from.widthPx || fromY >= from.heightPx) return;
  const [source, target] = [(fromY * from.widthPx + fromX) * 4, (y * to.widthPx + x) * 4];
  for (let c = 0; c < 4; c += 1) to.data[target + c] = from.data[source + c]!;
}

/** A hard shadow with a straight edge through the frame. @param left share of light in the shadow */
export function shadowAcross(
  photo: RgbaRaster,
  corners: Corners,
  left: number,
  random: () => number,
): RgbaRaster {
  const middleX = corners.reduce((sum, [x]) => sum + x, 0) / 4;
  const middleY = corners.reduce((sum, [, y]) => sum + y, 0) / 4;
  const angle = 2 * Math.PI * random();
  const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
  const result = copyOf(photo);
  forEachPixel(result, (x, y, at) => {
    if ((x - middleX) * nx + (y - middleY) * ny < 0) return;
    // the sky's light in a shadow is bluer; display values go with light to the power of 1 / 2.2
    const factors = [left, left, 1.25 * left].map((share) => share ** (1 / 2.2));
    for (let c = 0; c < 3; c += 1) result.data[at + c] = photo.data[at + c]! * factors[c]!;
  });
  return result;
}

/** A dark shoe, 30 % of the frame's side long, across a side at this share of its length. */
export function footOn(photo: RgbaRaster, corners: Corners, side: number, place: number): RgbaRaster {
  const [a, b] = [corners[side]!, corners[(side + 1) % 4]!];
  const length = lengthOf(a, b);
  const [cx, cy] = [a[0] + place * (b[0] - a[0]), a[1] + place * (b[1] - a[1])];
  const [dx, dy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const result = copyOf(photo);
  forEachPixel(result, (x, y, at) => {
    const along = (x - cx) * dx + (y - cy) * dy;
    const out = (x - cx) * dy - (y - cy) * dx;
    if ((along / (0.07 * length)) ** 2 + (out / (0.16 * length)) ** 2 > 1) return;
    const shade = 0.8 + 0.4 * Math.abs(along / (0.07 * length));
    [result.data[at], result.data[at + 1], result.data[at + 2]] = [52 * shade, 44 * shade, 40 * shade];
  });
  return result;
}

/** Display values multiplied; half is about two stops. */
export function scaledColours(photo: RgbaRaster, factor: number): RgbaRaster {
  const result = copyOf(photo);
  forEachPixel(result, (_x, _y, at) => {
    for (let c = 0; c < 3; c += 1) result.data[at + c] = photo.data[at + c]! * factor;
  });
  return result;
}

/** The picture moved so that the top left corner of the frame leaves it by a tenth of the frame's side. */
function shifted(photo: RgbaRaster, corners: Corners): RgbaRaster {
  const out = 0.1 * lengthOf(corners[0], corners[1]);
  const [left, top] = [Math.round(corners[0][0] + out), Math.round(corners[0][1] + out)];
  return resampled(photo, photo.widthPx, photo.heightPx, (x, y) => [x + left, y + top]);
}

/** The picture beside itself, both at half size. */
function twice(photo: RgbaRaster): RgbaRaster {
  const { widthPx, heightPx } = photo;
  return resampled(photo, widthPx, heightPx >> 1, (x, y) => [(2 * x) % widthPx, 2 * y]);
}

/** The turf inside the frame, enlarged to the photo's size. */
export function insideOnly(photo: RgbaRaster, corners: Corners): RgbaRaster {
  const left = Math.max(corners[0][0], corners[3][0]) + 8;
  const right = Math.min(corners[1][0], corners[2][0]) - 8;
  const top = Math.max(corners[0][1], corners[1][1]) + 8;
  const scale = (right - left) / photo.widthPx;
  return resampled(photo, photo.widthPx, photo.heightPx, (x, y) => [left + x * scale, top + y * scale]);
}

/**
 * The scene seen by a camera tilted and turned more than it was.
 *
 * @param towards direction of the tilt, radians
 * @param turnDegrees turn about the camera's axis
 */
export function tilt(
  photo: RgbaRaster,
  corners: Corners,
  degrees: number,
  towards: number,
  turnDegrees: number,
) {
  const { widthPx, heightPx } = photo;
  // a phone's main camera: 26 mm on 36 x 24 mm film, so the longer side is 36 / 26 focal lengths
  const focalPx = (26 / 36) * Math.max(widthPx, heightPx);
  const [tiltRad, turnRad] = [(degrees * Math.PI) / 180, (turnDegrees * Math.PI) / 180];
  const view = ([x, y]: PhotoPoint): PhotoPoint => {
    const [u, v] = [(x - widthPx / 2) / focalPx, (y - heightPx / 2) / focalPx];
    // the photo is taken for a view straight down from a height of 1; the new camera looks at its middle from a little
    // farther away, so that the frame stays in the picture
    const [c, s] = [Math.cos(towards), Math.sin(towards)];
    const [along, across] = [c * u + s * v, -s * u + c * v];
    const depth = 1.16 + along * Math.sin(tiltRad);
    const [p, q] = [(along * Math.cos(tiltRad)) / depth, across / depth];
    const [a, b] = [c * p - s * q, s * p + c * q];
    const [ct, st] = [Math.cos(turnRad), Math.sin(turnRad)];
    return photoPoint(widthPx / 2 + focalPx * (ct * a - st * b), heightPx / 2 + focalPx * (st * a + ct * b));
  };
  const from: Corners = [
    photoPoint(0, 0),
    photoPoint(widthPx, 0),
    photoPoint(widthPx, heightPx),
    photoPoint(0, heightPx),
  ];
  const to = from.map(view) as unknown as Corners;
  const back = homographyBetween(to, from);
  const raster = resampled(photo, widthPx, heightPx, (x, y) =>
    mapPoint<'photo', 'photo'>(back, photoPoint(x, y)),
  );
  return { raster, corners: corners.map(view) as unknown as Corners };
}

/** Bilinear resampling; outside of the photo its middle third is repeated, mirrored, which shows turf. Coordinates are of pixel corners, as everywhere. */
export function resampled(
  photo: RgbaRaster,
  widthPx: number,
  heightPx: number,
  source: (x: number, y: number) => readonly [number, number],
): RgbaRaster {
  const data = new Uint8ClampedArray(widthPx * heightPx * 4);
  const result: RgbaRaster = { widthPx, heightPx, data };
  forEachPixel(result, (x, y, at) => {
    const [u, v] = source(x + 0.5, y + 0.5);
    const isOutside = u < 0 || v < 0 || u > photo.widthPx || v > photo.heightPx;
    const px = isOutside ? mirrored(u, photo.widthPx) : Math.min(photo.widthPx - 1, Math.max(0, u - 0.5));
    const py = isOutside ? mirrored(v, photo.heightPx) : Math.min(photo.heightPx - 1, Math.max(0, v - 0.5));
    const [left, top] = [Math.floor(px), Math.floor(py)];
    const [right, bottom] = [Math.min(photo.widthPx - 1, left + 1), Math.min(photo.heightPx - 1, top + 1)];
    const [fx, fy] = [px - left, py - top];
    for (let c = 0; c < 3; c += 1) {
      const value = (column: number, row: number) => photo.data[(row * photo.widthPx + column) * 4 + c]!;
      const upper = value(left, top) * (1 - fx) + value(right, top) * fx;
      const lower = value(left, bottom) * (1 - fx) + value(right, bottom) * fx;
      data[at + c] = upper * (1 - fy) + lower * fy;
    }
    data[at + 3] = 255;
  });
  return result;
}

/** A value that zigzags through the middle third of 0..size. */
function mirrored(value: number, size: number): number {
  const third = size / 3;
  const within = (((value - third) % (2 * third)) + 2 * third) % (2 * third);
  return third + (within < third ? within : 2 * third - within);
}

function forEachPixel(
  { widthPx, heightPx }: RgbaRaster,
  visit: (x: number, y: number, at: number) => void,
): void {
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) visit(x, y, (y * widthPx + x) * 4);
  }
}
