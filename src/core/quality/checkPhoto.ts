import { type CardBalance, cardBalance } from '../colour/cardBalance.ts';
import type { MeasureSettings } from '../cover/measurePhoto.ts';
import { type FrameFinding, findFrame, SEARCH_SIDE_PX } from '../frame/findFrame.ts';
import { findGreyCard, type GreyCardFinding } from '../frame/findGreyCard.ts';
import { reducePicture } from '../frame/reducedPicture.ts';
import { frameOf } from '../geometry/frameOf.ts';
import type { PlotFrame } from '../geometry/plotFrame.ts';
import { readCameraFacts } from '../photo-file/readCameraFacts.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { jpegQuality } from './jpegQuality.ts';
import { type PhotoQuality, photoQuality } from './photoQuality.ts';

/** What is to be looked for in a photo, because nobody has settled it yet. */
export interface FindRequest {
  readonly frame: boolean;
  readonly greyCard: boolean;
  /** Inner size of the frames of this rating date, for one that is found; null where it is not known. */
  readonly frameSizeMm: readonly [widthMm: number, heightMm: number] | null;
}

/** What a photo shows of itself: frame, grey card, fitness for measuring. */
export interface PhotoCheck {
  /** Null where nobody looked, because a frame is marked or the whole photo was chosen. */
  readonly frame: FrameFinding | null;
  /** Null where nobody looked: one is settled, or there is no frame to look in. */
  readonly greyCard: GreyCardFinding | null;
  /** What balancing by the card does to it; null without a card, or where it cannot be used. */
  readonly balance: CardBalance | null;
  /** Judged within the frame that the photo is measured in. */
  readonly quality: PhotoQuality;
}

/** What of a photo is settled before it is measured. */
export type SettledArea = Pick<MeasureSettings, 'frame' | 'ignored' | 'neutral'>;

/** Each side of a frame that is used unasked is seen along this share. */
const SURE_CONFIDENCE = 0.8;

/** Whether a frame can be used before a person has looked at it: a doubtful one is only offered. */
export function isSureFrame(finding: FrameFinding): finding is Extract<FrameFinding, { found: true }> {
  return finding.found && finding.warnings.length === 0 && finding.confidence >= SURE_CONFIDENCE;
}

/**
 * Looks a photo over before it is measured: one reduced picture serves frame, card and verdict.
 *
 * @param bytes the photo's file, for what it says of camera and compression
 * @param settings what is settled about the photo; never overruled
 * @returns the settings with what was found and can be used; the same object where that is nothing
 */
export function checkPhoto<Settings extends SettledArea>(
  photo: RgbaRaster,
  bytes: Uint8Array,
  settings: Settings,
  find: FindRequest,
): { readonly check: PhotoCheck; readonly settings: Settings } {
  const reduced = reducePicture(photo, SEARCH_SIDE_PX);
  const finding = find.frame && !settings.frame ? findFrame(photo, { reduced }) : null;
  const found = finding && isSureFrame(finding) ? frameOf(finding.corners, find.frameSizeMm) : null;
  const frame = settings.frame ?? found;
  const greyCard =
    find.greyCard && !settings.neutral && frame ? findGreyCard(photo, frame.corners, { reduced }) : null;
  const quality = photoQuality(photo, {
    frame,
    greyCard,
    camera: readCameraFacts(bytes),
    compressionQuality: jpegQuality(bytes),
    reduced,
  });
  const used = withFindings(settings, found, greyCard);
  const balance = used.neutral && cardBalance(photo, used.neutral);
  return { check: { frame: finding, greyCard, balance, quality }, settings: used };
}

function withFindings<Settings extends SettledArea>(
  settings: Settings,
  frame: PlotFrame | null,
  greyCard: GreyCardFinding | null,
): Settings {
  const card = greyCard?.found && greyCard.warnings.length === 0 ? greyCard : null;
  if (!frame && !card) return settings;
  return {
    ...settings,
    ...(frame && { frame }),
    ...(card && { neutral: card.rectangle, ignored: [...settings.ignored, card.outline] }),
  };
}
