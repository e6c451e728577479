import { readColourProfile } from './colourProfile.ts';
import { type SrgbConversion, srgbConversion } from './convertToSrgb.ts';
import type { PhotoFileInfo } from './photoFileInfo.ts';
import type { PhotoProblem } from './photoProblem.ts';

/** Undoes zlib compression, giving up above `limitBytes`. @throws Error if the data is not zlib's or too long */
export type Inflate = (compressed: Uint8Array, limitBytes: number) => Promise<Uint8Array>;

export type ColourSettlement =
  | { readonly ok: true; readonly conversion: SrgbConversion | null }
  | { readonly ok: false; readonly problem: PhotoProblem };

/** Profiles of phones have half a kilobyte, those of printers a few megabytes. */
const LARGEST_PROFILE_BYTES = 4 << 20;

/** How a photo's colours become sRGB; a profile that cannot be read counts as none, as in every browser. */
export async function settleColour(
  { embeddedProfile }: Pick<PhotoFileInfo, 'embeddedProfile'>,
  inflate: Inflate,
): Promise<ColourSettlement> {
  if (!embeddedProfile) return { ok: true, conversion: null };
  let icc = embeddedProfile.bytes;
  if (embeddedProfile.compressed) {
    try {
      icc = await inflate(icc, LARGEST_PROFILE_BYTES);
    } catch {
      return { ok: true, conversion: null };
    }
  }
  const reading = readColourProfile(icc);
  if (reading.state === 'tables') {
    return { ok: false, problem: { code: 'unsupported-kind', kind: 'colour profile made of tables' } };
  }
  return { ok: true, conversion: reading.state === 'usable' ? srgbConversion(reading.profile) : null };
}
