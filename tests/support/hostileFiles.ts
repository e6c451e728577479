import { deflateSync } from 'node:zlib';
import { crc32 } from '../../src/core/photo-file/crc32.ts';
import type { PhotoProblem } from '../../src/core/photo-file/photoProblem.ts';
import { seededRandom } from './seededRandom.ts';
import { colourfulPicture, halfTransparent, sixteenBits } from './testPictures.ts';

/** A file that a program may choke on. */
export interface HostileFile {
  readonly name: string;
  readonly bytes: Buffer;
  /**
   * What looking at it must find: a problem; 'decodes' for odd but good photos; 'fails' where the decoder must find
   * damage; 'either' where a flipped bit may or may not break the picture.
   */
  readonly expected: PhotoProblem['code'] | 'decodes' | 'fails' | 'either';
}

/** Some ninety hostile files, the same on every call with the same version of sharp; no two names differ by ending alone. */
export async function hostileFiles(): Promise<HostileFile[]> {
  const random = seededRandom(20270412);
  const between = (low: number, high: number) => Math.floor(low + random() * (high - low));
  const jpeg = await colourfulPicture(200, 150).withMetadata({ orientation: 6 }).jpeg().toBuffer();
  const progressive = await colourfulPicture(200, 150).jpeg({ progressive: true }).toBuffer();
  const png = await colourfulPicture(120, 90).png().toBuffer();
  const palette = await colourfulPicture(120, 90).png({ palette: true }).toBuffer();
  const webp = await colourfulPicture(200, 150).webp({ quality: 70 }).toBuffer();
  const small = await colourfulPicture(90, 70).jpeg().toBuffer();
  const head = pictureStart(small);
  const files: HostileFile[] = [];
  const add = (name: string, bytes: Uint8Array, expected: HostileFile['expected']) =>
    files.push({ name, bytes: Buffer.from(bytes), expected });

  // no picture at all
  add('empty.jpg', Buffer.alloc(0), 'empty-file');
  add('text.jpg', Buffer.from('plot 101, cloudy, wind from the east\n'.repeat(40)), 'not-a-picture');
  add('page.png', Buffer.from('<!doctype html><title>404</title>'), 'not-a-picture');
  add('zeros.jpg', Buffer.alloc(5000), 'not-a-picture');
  add('three-bytes.jpg', Buffer.from([0xff, 0xd8, 0xff]), 'truncated');
  add('noise-after-start.jpg', Buffer.from([0xff, 0xd8, 0xff, ...bytesOf(4000, random)]), 'fails');

  // ends too early
  for (let i = 0; i < 8; i += 1)
    add(`cut-${i}.jpg`, jpeg.subarray(0, between(4, jpeg.length - 2)), 'truncated');
  for (let i = 0; i < 3; i += 1) {
    add(`cut-progressive-${i}.jpg`, progressive.subarray(0, between(4, progressive.length - 2)), 'truncated');
  }
  for (let i = 0; i < 4; i += 1)
    add(`cut-png-${i}.png`, png.subarray(0, between(9, png.length - 5)), 'truncated');
  for (let i = 0; i < 2; i += 1)
    add(`cut-webp-${i}.webp`, webp.subarray(0, between(13, webp.length)), 'truncated');

  // flipped bytes
  for (let i = 0; i < 8; i += 1) add(`flipped-${i}.jpg`, flipped(jpeg, between(1, 6), random, 2), 'either');
  for (let i = 0; i < 4; i += 1) add(`flipped-png-${i}.png`, flipped(png, between(1, 4), random, 8), 'fails');
  for (let i = 0; i < 3; i += 1)
    add(`flipped-webp-${i}.webp`, flipped(webp, between(1, 4), random, 30), 'either');

  // sizes that lie
  add('200-megapixels.jpg', jpegOfSize(jpeg, 20_000, 10_000), 'too-large');
  add('98-megapixels-of-nothing.jpg', jpegOfSize(jpeg, 65_500, 1500), 'damaged');
  add('no-height.jpg', jpegOfSize(jpeg, 200, 0), 'damaged');
  add('10000-megapixels.png', pngOfSize(png, 100_000, 100_000), 'too-large');
  add('largest-size.png', pngOfSize(png, 0x7fffffff, 0x7fffffff), 'too-large');
  add('81-megapixels-of-nothing.png', pngOfSize(png, 9000, 9000), 'damaged');
  add('taller-than-its-data.png', pngOfSize(png, 120, 200), 'fails');
  add('one-pixel.jpg', await colourfulPicture(1, 1).jpeg().toBuffer(), 'too-small');
  add('narrow.png', await colourfulPicture(63, 500).png().toBuffer(), 'too-small');

  // colours
  add('grey.jpg', await colourfulPicture(90, 70).toColourspace('b-w').jpeg().toBuffer(), 'greyscale');
  add('grey-png.png', await colourfulPicture(90, 70).toColourspace('b-w').png().toBuffer(), 'greyscale');
  add('print.jpg', await colourfulPicture(90, 70).toColourspace('cmyk').jpeg().toBuffer(), 'cmyk');
  add('16-bits.png', await sixteenBits(90, 70).png().toBuffer(), 'decodes');
  add('palette.png', palette, 'decodes');
  add('palette-missing.png', withoutChunk(palette, 'PLTE'), 'fails');
  add('interlaced.png', await colourfulPicture(90, 70).png({ progressive: true }).toBuffer(), 'decodes');
  add('see-through.png', await halfTransparent(90, 70).png().toBuffer(), 'decodes');
  add(
    'colour-type-5.png',
    patchedHead(png, (ihdr) => ihdr.writeUInt8(5, 9)),
    'damaged',
  );
  add('linear.png', withChunk(png, 'gAMA', Buffer.from([0, 1, 0x86, 0xa0])), 'unsupported-kind');
  add('wide-hdr.png', withChunk(png, 'cICP', Buffer.from([9, 16, 0, 1])), 'unsupported-kind');

  // other kinds under a photo's name
  add('moving.jpg', await colourfulPicture(90, 70).gif().toBuffer(), 'unsupported-kind');
  add('scan.jpg', await colourfulPicture(90, 70).tiff().toBuffer(), 'unsupported-kind');
  add('bitmap.png', Buffer.concat([Buffer.from('BM'), Buffer.alloc(200)]), 'unsupported-kind');
  add('new-format.jpg', await colourfulPicture(90, 70).avif({ effort: 0 }).toBuffer(), 'unsupported-kind');
  add('apple-head-only.heic', isoMedia('heic', null), 'truncated');
  add('apple-too-large.heic', isoMedia('heic', [20_000, 20_000]), 'too-large');
  add('apple-nothing-inside.heic', isoMedia('heic', [4000, 3000]), 'heic-not-decodable');
  add('film.heic', isoMedia('isom', [4000, 3000]), 'unsupported-kind');

  // segments of JPEG
  const afterStart = (segment: number[] | Buffer) => inserted(small, 2, segment);
  add('no-length.jpg', afterStart([0xff, 0xe5, 0, 0]), 'damaged');
  add('length-one.jpg', afterStart([0xff, 0xe5, 0, 1]), 'damaged');
  add('segment-beyond-end.jpg', inserted(small, small.length - 2, [0xff, 0xe5, 0xff, 0xff]), 'truncated');
  add('start-again.jpg', afterStart([0xff, 0xd8]), 'damaged');
  add('two-heads.jpg', inserted(small, head, small.subarray(head, head + 19)), 'damaged');
  add('two-colours.jpg', patched(small, head + 9, [2]), 'damaged');
  add('12-bits.jpg', patched(small, head + 4, [12]), 'unsupported-kind');
  add('arithmetic.jpg', patched(small, head + 1, [0xc9]), 'unsupported-kind');
  add('lossless.jpg', patched(small, head + 1, [0xc3]), 'unsupported-kind');
  add('no-huffman-tables.jpg', withoutSegments(small, 0xc4), 'either'); // decoders know the usual tables by heart
  add('no-quantisation.jpg', withoutSegments(small, 0xdb), 'fails');
  add('hundred-comments.jpg', afterStart(comments(100)), 'decodes');

  // facts and profiles that are nonsense
  add('exif-noise.jpg', afterStart(app(1, 'Exif\0\0', bytesOf(600, random))), 'decodes');
  add('exif-loops.jpg', afterStart(app(1, 'Exif\0\0', loopingExif())), 'decodes');
  add(
    'exif-beyond-end.jpg',
    afterStart(app(1, 'Exif\0\0', [0x4d, 0x4d, 0, 42, 0x7f, 0xff, 0xff, 0xff])),
    'decodes',
  );
  add('exif-orientation-99.jpg', afterStart(app(1, 'Exif\0\0', tinyExif(99))), 'decodes');
  add('exif-wrong-time.jpg', await wrongTime(), 'decodes');
  add('profile-noise.jpg', afterStart(app(2, 'ICC_PROFILE\0', [1, 1, ...noisyProfile(random)])), 'decodes');
  add('profile-piece-missing.jpg', afterStart(app(2, 'ICC_PROFILE\0', [2, 3, 1, 2, 3])), 'decodes');
  add('profile-bomb.png', withChunk(png, 'iCCP', profileBomb()), 'decodes');
  add(
    'profile-of-tables.jpg',
    afterStart(app(2, 'ICC_PROFILE\0', [1, 1, ...tableProfile()])),
    'unsupported-kind',
  );

  // chunks of PNG and WebP
  add('no-pixels.png', withoutChunk(png, 'IDAT'), 'damaged');
  add('head-missing.png', withoutChunk(png, 'IHDR'), 'damaged');
  add('head-twice.png', inserted(png, 33, png.subarray(8, 33)), 'damaged');
  add(
    'not-compressed.png',
    withChunk(withoutChunk(png, 'IDAT'), 'IDAT', Buffer.from(bytesOf(3000, random))),
    'fails',
  );
  add('size-beyond-end.webp', patched(webp, 4, [0xff, 0xff, 0xff, 0x7f]), 'truncated');
  add('no-picture.webp', patched(webp, 12, [...Buffer.from('JUNK')]), 'damaged');
  return files;
}

const bytesOf = (count: number, random: () => number): number[] =>
  Array.from({ length: count }, () => Math.floor(random() * 256));

function flipped(bytes: Buffer, count: number, random: () => number, from: number): Buffer {
  const copy = Buffer.from(bytes);
  for (let i = 0; i < count; i += 1) {
    const at = Math.floor(from + random() * (copy.length - from));
    copy[at]! ^= 1 + Math.floor(random() * 255);
  }
  return copy;
}

const inserted = (bytes: Buffer, at: number, more: number[] | Uint8Array): Buffer =>
  Buffer.concat([bytes.subarray(0, at), Buffer.from(more), bytes.subarray(at)]);

function patched(bytes: Buffer, at: number, values: number[]): Buffer {
  const copy = Buffer.from(bytes);
  copy.set(values, at);
  return copy;
}

/** Where the frame header of a JPEG stands: its marker's first byte. */
function pictureStart(jpeg: Buffer): number {
  let at = 2;
  while (jpeg[at + 1] !== 0xc0 && jpeg[at + 1] !== 0xc2) at += 2 + jpeg.readUInt16BE(at + 2);
  return at;
}

function jpegOfSize(jpeg: Buffer, width: number, height: number): Buffer {
  const at = pictureStart(jpeg);
  return patched(jpeg, at + 5, [height >> 8, height & 255, width >> 8, width & 255]);
}

/** A JPEG without its segments of one marker, up to the first scan. */
function withoutSegments(jpeg: Buffer, marker: number): Buffer {
  const kept: Buffer[] = [jpeg.subarray(0, 2)];
  let at = 2;
  while (jpeg[at + 1] !== 0xda) {
    const end = at + 2 + jpeg.readUInt16BE(at + 2);
    if (jpeg[at + 1] !== marker) kept.push(jpeg.subarray(at, end));
    at = end;
  }
  return Buffer.concat([...kept, jpeg.subarray(at)]);
}

function app(number: number, name: string, content: readonly number[]): Buffer {
  const length = Buffer.alloc(2);
  length.writeUInt16BE(2 + name.length + content.length);
  return Buffer.concat([
    Buffer.from([0xff, 0xe0 + number]),
    length,
    Buffer.from(name, 'latin1'),
    Buffer.from(content),
  ]);
}

const comments = (count: number): Buffer =>
  Buffer.concat(Array.from({ length: count }, () => Buffer.from([0xff, 0xfe, 0, 6, 0x74, 0x75, 0x72, 0x66])));

/** A directory whose next directory, and whose EXIF and GPS directories, are itself. */
function loopingExif(): number[] {
  const tiff = Buffer.alloc(50);
  tiff.set([0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 3]);
  [0x8769, 0x8825, 0xa005].forEach((tag, i) => {
    tiff.writeUInt16BE(tag, 10 + 12 * i);
    tiff.writeUInt16BE(4, 12 + 12 * i);
    tiff.writeUInt32BE(1, 14 + 12 * i);
    tiff.writeUInt32BE(8, 18 + 12 * i);
  });
  tiff.writeUInt32BE(8, 46);
  return [...tiff];
}

const tinyExif = (orientation: number): number[] => [
  0x4d,
  0x4d,
  0,
  42,
  0,
  0,
  0,
  8,
  0,
  1,
  0x01,
  0x12,
  0,
  3,
  0,
  0,
  0,
  1,
  0,
  orientation,
  0,
  0,
  0,
  0,
  0,
  0,
];

const wrongTime = (): Promise<Buffer> =>
  colourfulPicture(90, 70)
    .withExif({ IFD2: { DateTimeOriginal: '0000:99:99 77:77:77' } })
    .jpeg()
    .toBuffer();

/** The head of an RGB profile with noise for tags. */
function noisyProfile(random: () => number): number[] {
  const profile = Buffer.from(bytesOf(400, random));
  profile.write('RGB XYZ ', 16, 'latin1');
  profile.write('acsp', 36, 'latin1');
  profile.writeUInt32BE(9, 128);
  return [...profile];
}

/** A profile with one tag: a table from RGB to the connection space. */
function tableProfile(): number[] {
  const profile = Buffer.alloc(160);
  profile.write('RGB Lab ', 16, 'latin1');
  profile.write('acsp', 36, 'latin1');
  profile.writeUInt32BE(1, 128);
  profile.write('A2B0', 132, 'latin1');
  profile.writeUInt32BE(144, 136);
  profile.writeUInt32BE(16, 140);
  return [...profile];
}

/** 64 MB of zeros in 64 kB. */
const profileBomb = (): Buffer =>
  Buffer.concat([Buffer.from('bomb\0\0', 'latin1'), deflateSync(Buffer.alloc(64 << 20), { level: 9 })]);

interface Chunk {
  readonly type: string;
  readonly whole: Buffer;
}

function chunksOf(png: Buffer): Chunk[] {
  const chunks: Chunk[] = [];
  for (let at = 8; at < png.length; ) {
    const end = at + 12 + png.readUInt32BE(at);
    chunks.push({ type: png.toString('latin1', at + 4, at + 8), whole: png.subarray(at, end) });
    at = end;
  }
  return chunks;
}

const pngOf = (chunks: readonly Chunk[]): Buffer =>
  Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 0x1a, 10]),
    ...chunks.map(({ whole }) => whole),
  ]);

function chunk(type: string, body: Buffer): Chunk {
  const whole = Buffer.alloc(12 + body.length);
  whole.writeUInt32BE(body.length);
  whole.write(type, 4, 'latin1');
  body.copy(whole, 8);
  whole.writeUInt32BE(crc32(whole.subarray(4, 8 + body.length)), 8 + body.length);
  return { type, whole };
}

const withoutChunk = (png: Buffer, type: string): Buffer =>
  pngOf(chunksOf(png).filter((c) => c.type !== type));

/** The PNG with one chunk more, after its head. */
function withChunk(png: Buffer, type: string, body: Buffer): Buffer {
  const [first, ...rest] = chunksOf(png);
  return pngOf([first!, chunk(type, body), ...rest]);
}

/** The PNG with another head and the right check sum for it. */
function patchedHead(png: Buffer, change: (ihdr: Buffer) => void): Buffer {
  const [first, ...rest] = chunksOf(png);
  const body = Buffer.from(first!.whole.subarray(8, -4));
  change(body);
  return pngOf([chunk('IHDR', body), ...rest]);
}

const pngOfSize = (png: Buffer, width: number, height: number): Buffer =>
  patchedHead(png, (ihdr) => {
    ihdr.writeUInt32BE(width, 0);
    ihdr.writeUInt32BE(height, 4);
  });

/** The first boxes of an ISO media file: its brand, and one picture's size if given. */
function isoMedia(brand: string, size: readonly [width: number, height: number] | null): Buffer {
  const box = (type: string, ...content: Buffer[]): Buffer => {
    const body = Buffer.concat(content);
    const bytes = Buffer.alloc(8);
    bytes.writeUInt32BE(8 + body.length);
    bytes.write(type, 4, 'latin1');
    return Buffer.concat([bytes, body]);
  };
  const four = (value: number): Buffer => {
    const bytes = Buffer.alloc(4);
    bytes.writeUInt32BE(value);
    return bytes;
  };
  const first = box('ftyp', Buffer.from(brand), four(0), Buffer.from(brand));
  if (!size) return first;
  const extent = box('ispe', four(0), four(size[0]), four(size[1]));
  return Buffer.concat([first, box('meta', four(0), box('iprp', box('ipco', extent)))]);
}
