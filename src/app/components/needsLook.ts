import type { PhotoSummary } from '../session/session.ts';

/** Why a person should look at a photo before its figure is relied on; core/text/area.ts has the words. */
export type LookReason = 'failed' | 'retake' | 'frame-missing' | 'frame-offered' | 'frame-unconfirmed';

/** The reasons, gravest first; empty for a photo that is settled or was not looked over yet. */
export function lookReasons(photo: PhotoSummary): readonly LookReason[] {
  const { replaced, work, verdict, frame, frameBy, offeredFrame } = photo;
  if (replaced) return [];
  const reasons: LookReason[] = [];
  if (work === 'failed') reasons.push('failed');
  if (verdict === 'retake') reasons.push('retake');
  if (frameBy === 'finder') reasons.push('frame-unconfirmed');
  if (frame === null && frameBy === null && verdict !== null) {
    reasons.push(offeredFrame ? 'frame-offered' : 'frame-missing');
  }
  return reasons;
}
