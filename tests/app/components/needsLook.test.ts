import { expect, test } from 'vitest';
import { lookReasons } from '../../../src/app/components/needsLook.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { FRAME } from '../../storage/support.ts';

const photo = (facts: Partial<PhotoSummary>) =>
  lookReasons({
    work: null,
    verdict: 'good',
    frame: FRAME,
    frameBy: 'finder-confirmed',
    offeredFrame: null,
    ...facts,
  } as PhotoSummary);

test('a settled photo needs no look, nor does one that was not looked over yet', () => {
  expect(photo({})).toEqual([]);
  expect(photo({ frameBy: 'file', verdict: 'usable' })).toEqual([]);
  expect(photo({ frame: null, frameBy: 'person' })).toEqual([]);
  expect(photo({ frame: null, frameBy: null, verdict: null })).toEqual([]);
});

test('reasons come gravest first', () => {
  expect(photo({ frameBy: 'finder', verdict: 'retake' })).toEqual(['retake', 'frame-unconfirmed']);
  expect(photo({ frame: null, frameBy: null, work: 'failed' })).toEqual(['failed', 'frame-missing']);
  expect(photo({ frame: null, frameBy: null, offeredFrame: FRAME.corners })).toEqual(['frame-offered']);
});
