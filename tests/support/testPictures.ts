import sharp from 'sharp';
import { seededRandom } from './seededRandom.ts';

/** Colours that run over the whole cube with noise on top: hard on every decoder. */
export function colourfulPixels(widthPx: number, heightPx: number, seed = 1): Buffer {
  const random = seededRandom(seed);
  const rgb = Buffer.alloc(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const i = (y * widthPx + x) * 3;
      rgb[i] = Math.min(255, (x * 180) / widthPx + random() * 80);
      rgb[i + 1] = Math.min(255, (y * 190) / heightPx + random() * 80);
      rgb[i + 2] = Math.min(255, ((x ^ y) & 255) * 0.6 + random() * 60);
    }
  }
  return rgb;
}

/** The same pixels, ready to be written as a file of any kind. */
export const colourfulPicture = (widthPx = 150, heightPx = 117, seed = 1) =>
  sharp(colourfulPixels(widthPx, heightPx, seed), { raw: { width: widthPx, height: heightPx, channels: 3 } });

/** One file of each kind that page and command line must decode to the same bytes, by name. */
export async function decodableFiles(): Promise<Record<string, Buffer>> {
  const picture = colourfulPicture;
  const files: Record<string, Buffer> = {
    'baseline 4:4:4': await picture().jpeg({ quality: 90, chromaSubsampling: '4:4:4' }).toBuffer(),
    'baseline 4:2:0': await picture().jpeg({ quality: 85 }).toBuffer(),
    'progressive 4:4:4': await picture()
      .jpeg({ quality: 60, progressive: true, chromaSubsampling: '4:4:4' })
      .toBuffer(),
    'progressive 4:2:0': await picture().jpeg({ quality: 90, progressive: true }).toBuffer(),
    'strong compression': await picture().jpeg({ quality: 12 }).toBuffer(),
    'sRGB named': await picture().withIccProfile('srgb').jpeg({ quality: 95 }).toBuffer(),
    'Display P3 4:2:0': await picture().withIccProfile('p3').jpeg({ quality: 90 }).toBuffer(),
    'Display P3 4:4:4': await picture()
      .withIccProfile('p3')
      .jpeg({ quality: 97, chromaSubsampling: '4:4:4' })
      .toBuffer(),
    'Display P3 turned': await picture()
      .withIccProfile('p3')
      .withMetadata({ orientation: 6 })
      .jpeg({ quality: 90 })
      .toBuffer(),
    PNG: await picture().png().toBuffer(),
    'PNG Display P3': await picture().withIccProfile('p3').png().toBuffer(),
    'PNG palette': await picture().png({ palette: true, colours: 64 }).toBuffer(),
    'PNG interlaced': await picture().png({ progressive: true }).toBuffer(),
    'PNG 16 bits': await sixteenBits().png().toBuffer(),
    'PNG with transparency': await halfTransparent().png().toBuffer(),
    'PNG palette with transparency': await halfTransparent().png({ palette: true }).toBuffer(),
    'PNG turned': await picture().withMetadata({ orientation: 5 }).png().toBuffer(),
    'WebP lossy': await picture().webp({ quality: 80 }).toBuffer(),
    'WebP lossless': await picture().webp({ lossless: true }).toBuffer(),
    'WebP with transparency': await halfTransparent().webp({ quality: 80 }).toBuffer(),
    'WebP Display P3 turned': await picture()
      .withIccProfile('p3')
      .withMetadata({ orientation: 8 })
      .webp({ quality: 80 })
      .toBuffer(),
  };
  for (let orientation = 1; orientation <= 8; orientation += 1) {
    files[`EXIF orientation ${orientation}`] = await picture()
      .withMetadata({ orientation })
      .jpeg({ quality: 90 })
      .toBuffer();
  }
  return files;
}

/** Left third clear, middle third half transparent. */
export function halfTransparent(widthPx = 150, heightPx = 117) {
  const rgb = colourfulPixels(widthPx, heightPx);
  const rgba = Buffer.alloc(widthPx * heightPx * 4);
  for (let i = 0; i < widthPx * heightPx; i += 1) {
    rgb.copy(rgba, 4 * i, 3 * i, 3 * i + 3);
    rgba[4 * i + 3] = [0, 128, 255][Math.floor((3 * (i % widthPx)) / widthPx)]!;
  }
  return sharp(rgba, { raw: { width: widthPx, height: heightPx, channels: 4 } });
}

/** 16 bits a channel, every low byte in use. */
export function sixteenBits(widthPx = 150, heightPx = 117) {
  const random = seededRandom(7);
  const values = Uint16Array.from({ length: widthPx * heightPx * 3 }, () => random() * 65536);
  return sharp(values, { raw: { width: widthPx, height: heightPx, channels: 3 } }).toColourspace('rgb16');
}
