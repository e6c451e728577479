import { describe, expect, test } from 'vitest';
import { joinBytes } from '../../../src/core/photo-file/bytes.ts';
import { inspectPhotoFile } from '../../../src/core/photo-file/inspectPhotoFile.ts';
import type { PhotoFileInfo } from '../../../src/core/photo-file/photoFileInfo.ts';
import { colourfulPicture, halfTransparent } from '../../support/testPictures.ts';

function infoOf(bytes: Uint8Array): PhotoFileInfo {
  const inspection = inspectPhotoFile(bytes);
  if (!inspection.ok) throw new Error(JSON.stringify(inspection.problem));
  return inspection.info;
}

describe('the head of a file', () => {
  const picture = () => colourfulPicture(150, 117);

  test.each(['jpeg', 'png', 'webp'] as const)('%s: kind, size as stored, orientation', async (kind) => {
    for (const orientation of [1, 6, 8]) {
      const bytes = await picture().withMetadata({ orientation })[kind]().toBuffer();
      expect(infoOf(bytes)).toMatchObject({
        kind,
        storedWidthPx: 150,
        storedHeightPx: 117,
        orientation,
        hasAlpha: false,
      });
    }
  });

  test.each(['png', 'webp'] as const)('%s: transparency', async (kind) => {
    expect(infoOf(await halfTransparent()[kind]().toBuffer()).hasAlpha).toBe(true);
  });

  test.each(['jpeg', 'png', 'webp'] as const)('%s: an embedded profile is found', async (kind) => {
    const bytes = await picture().withIccProfile('p3')[kind]().toBuffer();
    expect(infoOf(bytes).embeddedProfile).toMatchObject({ compressed: kind === 'png' });
    expect(infoOf(await picture()[kind]().toBuffer()).embeddedProfile).toBeNull();
  });
});

test('HEIC: told by its brand, size from its head, wherever that stands', async () => {
  // AVIF is the same container with another codec inside
  const avif = await colourfulPicture().avif({ effort: 0 }).toBuffer();
  const firstBox = avif.readUInt32BE(0);
  const heic = Buffer.from(avif);
  heic.write('heic', 8, 'latin1');
  for (let at = 16; at < firstBox; at += 4) heic.write('mif1', at, 'latin1');
  const free = Buffer.from([0, 0, 0, 12, ...Buffer.from('free'), 1, 2, 3, 4]);
  const moved = Buffer.concat([heic.subarray(0, firstBox), free, heic.subarray(firstBox)]);
  for (const file of [heic, moved]) {
    expect(infoOf(file)).toMatchObject({ kind: 'heic', storedWidthPx: 150, storedHeightPx: 117 });
  }
});

describe('what a decoder gets', () => {
  test.each(['jpeg', 'png', 'webp'] as const)('%s: pixels, and neither profile nor EXIF', async (kind) => {
    const bytes = await colourfulPicture()
      .withIccProfile('p3')
      .withExif({ IFD0: { Software: 'field notes' } })
      [kind]()
      .toBuffer();
    expect(bytes.includes('field notes')).toBe(true);
    const picture = Buffer.from(joinBytes(infoOf(bytes).pictureParts));
    expect(picture.includes('field notes')).toBe(false);
    expect(picture.includes('acsp')).toBe(false);
    expect(infoOf(picture)).toMatchObject({ embeddedProfile: null, storedWidthPx: 150 });
  });

  test('a turned JPEG is left as stored, and what stands behind its end is left out', async () => {
    const photo = await colourfulPicture().withMetadata({ orientation: 6 }).jpeg().toBuffer();
    const withMore = Buffer.concat([photo, Buffer.from('a second picture')]);
    expect(infoOf(withMore).orientation).toBe(6);
    const picture = Buffer.from(joinBytes(infoOf(withMore).pictureParts));
    expect(infoOf(picture)).toMatchObject({ orientation: 1, storedWidthPx: 150, storedHeightPx: 117 });
    expect(picture.includes('a second picture')).toBe(false);
  });
});

test('bytes in the middle of a larger buffer are read as if they stood alone', async () => {
  const png = await colourfulPicture().png().toBuffer();
  const shared = new Uint8Array(png.length + 20);
  shared.set(png, 10);
  expect(infoOf(shared.subarray(10, 10 + png.length))).toMatchObject({ kind: 'png', storedWidthPx: 150 });
});
