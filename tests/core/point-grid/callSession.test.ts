import { describe, expect, test } from 'vitest';
import { photoPoint, plotPoint } from '../../../src/core/geometry/points.ts';
import { countCalls, countCallsByLine } from '../../../src/core/point-grid/callCounts.ts';
import {
  actionOfKey,
  type CallSession,
  callProgress,
  pointShown,
  reduceCallSession,
  startCallSession,
} from '../../../src/core/point-grid/callSession.ts';
import { callsOf, callsUnderOtherRule, pointState } from '../../../src/core/point-grid/pointCall.ts';
import type { PointPlace } from '../../../src/core/point-grid/pointPlaces.ts';
import type { PointSet } from '../../../src/core/point-grid/pointSet.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';

const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);
const placesOf = (count: number): PointPlace[] =>
  Array.from({ length: count }, (_, i) => ({ id: i + 1, at: photoPoint(10 * i, i), isOutside: false }));

const start = (given: Partial<Parameters<typeof startCallSession>[0]> = {}): CallSession =>
  startCallSession({
    observer: 'K',
    gapRule: { kind: 'every-pixel' },
    places: placesOf(10),
    calls: [],
    seed: 4,
    ...given,
  });
const press = (session: CallSession, keys: string): CallSession =>
  [...keys].reduce((now, key) => {
    const action = actionOfKey(
      key === '<' ? 'Backspace' : key,
      false,
      DEFAULT_CLASSES,
      '2027-05-17T10:00:00Z',
    );
    return action ? reduceCallSession(now, action) : now;
  }, session);

describe('calling points', () => {
  test('100 keys that come before anything is drawn: each is booked, on the point that was due', () => {
    const keys = Array.from({ length: 100 }, (_, i) => 'rwb.'[i % 4]!);
    const session = start({ places: placesOf(100) });
    const done = press(session, keys.join(''));
    expect(done.calls).toHaveLength(100);
    expect(done.calls.map(({ pointId }) => pointId)).toEqual(session.order);
    expect(done.calls.map(({ classId }) => classId)).toEqual(
      keys.map(
        (key) => DEFAULT_CLASSES.find((coverClass) => coverClass.key === key.toUpperCase())?.id ?? null,
      ),
    );
    for (const { pointId, at } of done.calls) expect(at).toEqual(photoPoint(10 * (pointId - 1), pointId - 1));
    expect(pointShown(done)).toBeNull();
  });

  test('the order is shuffled, its own for each observer, and all points are in it', () => {
    const [k, m] = [start(), start({ observer: 'M' })];
    expect([...k.order].sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(k.order).not.toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(m.order).not.toEqual(k.order);
    expect(start().order).toEqual(k.order);
  });

  test('back and another key replace a call, and the earlier one stays in the record', () => {
    const done = press(start(), 'rr<w');
    expect(done.calls).toHaveLength(3);
    const own = callsOf(done.calls, 'K');
    expect(own.get(done.order[1]!)!.classId).toBe('weedy-grass');
    expect(pointShown(done)!.id).toBe(done.order[2]);
    expect(callProgress(done)).toEqual({ done: 2, all: 10 });
    expect(press(start(), '<').position).toBe(0);
  });

  test('a point passed over comes up again at the end', () => {
    const session = start();
    const skipped = reduceCallSession(session, { type: 'forward' });
    const nine = press(skipped, 'rrrrrrrrr');
    expect(pointShown(nine)!.id).toBe(session.order[0]);
    const all = press(nine, 'w');
    expect(pointShown(all)).toBeNull();
    expect(press(all, 'w')).toBe(all);
    expect(press(all, '<').position).toBe(9);
  });

  test('nothing is booked while paused', () => {
    const paused = reduceCallSession(press(start(), 'r'), { type: 'pause' });
    expect(press(paused, 'wb<.')).toBe(paused);
    const going = reduceCallSession(paused, { type: 'resume' });
    expect(press(going, 'w').calls).toHaveLength(2);
  });

  test('a sitting is taken up where it ended, whatever others did meanwhile', () => {
    const first = press(start(), 'rwb');
    const other = press(start({ observer: 'M' }), 'wwww');
    const again = start({ calls: [...other.calls, ...first.calls] });
    expect(again.order).toEqual(first.order);
    expect(again.position).toBe(3);
    expect(again.calls).toEqual(first.calls);
  });

  test('points outside are not shown, and calls on them stay out of the sitting', () => {
    const first = press(start(), 'r');
    const called = first.calls[0]!.pointId;
    const places = placesOf(10).map((place) => ({ ...place, isOutside: place.id === called }));
    const again = start({ places, calls: first.calls });
    expect(again.order).not.toContain(called);
    expect(callProgress(again)).toEqual({ done: 0, all: 9 });
  });

  test('a key held down counts once, other keys mean nothing', () => {
    expect(actionOfKey('r', true, DEFAULT_CLASSES, '')).toBeNull();
    expect(actionOfKey('x', false, DEFAULT_CLASSES, '')).toBeNull();
    expect(actionOfKey('R', false, DEFAULT_CLASSES, 't')).toEqual({
      type: 'call',
      classId: 'ryegrass',
      calledAt: 't',
    });
  });
});

describe('what was called', () => {
  test('unlabelled, called, indeterminate and outside are four different things', () => {
    const session = press(start(), 'rw..b');
    const own = callsOf(session.calls, 'K');
    expect(session.order.slice(0, 6).map((id) => pointState(own.get(id)).state)).toEqual([
      'called',
      'called',
      'indeterminate',
      'indeterminate',
      'called',
      'unlabelled',
    ]);
    const outside = session.order[0]!;
    const places = placesOf(10).map((place) => ({ ...place, isOutside: place.id === outside }));
    expect(countCalls(places, session.calls, 'K', CLASS_IDS)).toEqual({
      hits: [0, 1, 1],
      indeterminate: 2,
      unlabelled: 5,
      outside: 1,
    });
    expect(countCalls(places, session.calls, 'M', CLASS_IDS).unlabelled).toBe(9);
    expect(() => countCalls(placesOf(10), session.calls, 'K', ['moss'])).toThrow('"ryegrass"');
  });

  test('points of transect lines are counted line by line', () => {
    const session = press(start({ places: placesOf(4) }), 'rrww');
    const points = placesOf(4).map(({ id }) => ({
      id,
      at: plotPoint(0, 0),
      line: id < 3 ? 0 : 1,
      replaces: null,
    }));
    const set: PointSet = {
      design: { kind: 'transect-lines', lines: 2, pointsPerLine: 2, direction: 'across' },
      seed: 1,
      extent: [1, 1],
      placedIn: [photoPoint(0, 0), photoPoint(9, 0), photoPoint(9, 9), photoPoint(0, 9)],
      points,
      leftOut: 0,
    };
    const lines = countCallsByLine(set, placesOf(4), session.calls, 'K', CLASS_IDS);
    const own = callsOf(session.calls, 'K');
    const ofFirst = [1, 2].filter((id) => own.get(id)!.classId === 'ryegrass').length;
    expect(lines.map(({ hits }) => hits)).toEqual([
      [ofFirst, 2 - ofFirst, 0],
      [2 - ofFirst, ofFirst, 0],
    ]);
  });

  test('calls under another rule for gaps are found', () => {
    const everyPixel = press(start(), 'r').calls;
    const rule = { kind: 'small-patches-to-surroundings', smallerThanMm: 5 } as const;
    const withRule = press(start({ gapRule: rule }), 'r').calls;
    expect(callsUnderOtherRule([...everyPixel, ...withRule], rule)).toEqual(everyPixel);
    expect(callsUnderOtherRule(withRule, { ...rule, smallerThanMm: 8 })).toEqual(withRule);
    expect(callsUnderOtherRule(everyPixel, { kind: 'every-pixel' })).toEqual([]);
  });
});
