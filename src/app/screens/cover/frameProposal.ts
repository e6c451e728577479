import type { FrameFinding } from '../../../core/frame/findFrame.ts';
import { frameOf } from '../../../core/geometry/frameOf.ts';
import type { PhotoArea } from '../../session/photoArea.ts';
import type { AreaControl } from './useArea.ts';

type Found = Extract<FrameFinding, { found: true }>;
type Missing = Extract<FrameFinding, { found: false }>;

/** What is to be decided about the frame of a photo. */
export type FrameProposal =
  /** Found and used; `finding` is null where only the frame is known. */
  | { readonly kind: 'unconfirmed'; readonly finding: Found | null }
  /** Found and not sure enough to be used. */
  | { readonly kind: 'offered'; readonly finding: Found }
  | { readonly kind: 'missing'; readonly reason: Missing['reason'] };

/** Null where a person or a file has settled it, or the photo was not looked over yet. */
export function frameProposal({ area, check }: Pick<AreaControl, 'area' | 'check'>): FrameProposal | null {
  const finding = check?.frame ?? null;
  if (area?.frameBy === 'finder') {
    return { kind: 'unconfirmed', finding: finding?.found ? finding : null };
  }
  if (!area || area.frame || area.frameBy || !finding) return null;
  return finding.found ? { kind: 'offered', finding } : { kind: 'missing', reason: finding.reason };
}

/** The area with what is proposed taken as right: the frame, and a grey card found with it. */
export function withProposal(
  area: PhotoArea,
  proposal: FrameProposal | null,
  frameSizeMm: AreaControl['frameSizeMm'],
): PhotoArea {
  const neutralBy = area.neutralBy === 'finder' ? 'finder-confirmed' : area.neutralBy;
  if (proposal?.kind === 'unconfirmed') return { ...area, frameBy: 'finder-confirmed', neutralBy };
  if (proposal?.kind !== 'offered') return area;
  return {
    ...area,
    frame: frameOf(proposal.finding.corners, frameSizeMm),
    frameBy: 'finder-confirmed',
    neutralBy,
  };
}
