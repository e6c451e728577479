import { expect, test } from 'vitest';
import { frameProposal, withProposal } from '../../../../src/app/screens/cover/frameProposal.ts';
import type { PhotoArea } from '../../../../src/app/session/photoArea.ts';
import type { FrameFinding } from '../../../../src/core/frame/findFrame.ts';
import type { PhotoCheck } from '../../../../src/core/quality/checkPhoto.ts';
import { FRAME } from '../../../storage/support.ts';

const AREA: PhotoArea = { frame: null, frameBy: null, ignored: [], neutral: null, neutralBy: null };
const FOUND: FrameFinding = { found: true, corners: FRAME.corners, confidence: 0.9, warnings: [] };
const checkWith = (frame: FrameFinding | null) => ({ frame }) as PhotoCheck;

test('a frame in use waits for its confirmation, which takes the card along', () => {
  const area: PhotoArea = { ...AREA, frame: FRAME, frameBy: 'finder', neutralBy: 'finder' };
  const proposal = frameProposal({ area, check: checkWith(FOUND) });
  expect(proposal).toEqual({ kind: 'unconfirmed', finding: FOUND });
  expect(withProposal(area, proposal, null)).toEqual({
    ...area,
    frameBy: 'finder-confirmed',
    neutralBy: 'finder-confirmed',
  });
});

test('a doubtful frame becomes the frame when it is taken', () => {
  const proposal = frameProposal({ area: AREA, check: checkWith(FOUND) });
  expect(proposal?.kind).toBe('offered');
  expect(withProposal(AREA, proposal, [500, 500])).toMatchObject({
    frame: { corners: FRAME.corners, sizeMm: [500, 500] },
    frameBy: 'finder-confirmed',
  });
});

test('nothing is proposed once it is settled, or before the photo was looked over', () => {
  const missing = frameProposal({ area: AREA, check: checkWith({ found: false, reason: 'no-frame' }) });
  expect(missing).toEqual({ kind: 'missing', reason: 'no-frame' });
  expect(withProposal(AREA, missing, null)).toBe(AREA);
  const whole: PhotoArea = { ...AREA, frameBy: 'person' };
  expect(frameProposal({ area: whole, check: checkWith(FOUND) })).toBeNull();
  expect(frameProposal({ area: AREA, check: null })).toBeNull();
  expect(frameProposal({ area: null, check: checkWith(FOUND) })).toBeNull();
});
