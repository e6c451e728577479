import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';

/**
 * Copies of JPEG photos that differ in a comment only, so that each counts as a photo of its own: same pixels, same
 * work. The folder is gone when `use` is done.
 */
export async function withVariants<Result>(
  photos: readonly string[],
  count: number,
  use: (files: readonly string[]) => Promise<Result>,
): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'swardbook-bench-'));
  try {
    const files = Array.from({ length: count }, (_, i) => {
      const source = photos[i % photos.length]!;
      const file = join(folder, `${String(i + 1).padStart(4, '0')} ${basename(source)}`);
      writeFileSync(file, withComment(readFileSync(source), `variant ${i + 1}`));
      return file;
    });
    return await use(files);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A JPEG comment segment (marker 0xFFFE) right after the start of image. */
function withComment(jpeg: Buffer, text: string): Buffer {
  const body = Buffer.from(text, 'latin1');
  const head = Buffer.from([0xff, 0xfe, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}
