import { expect, test } from 'vitest';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';
import { type WalkPhoto, walkPosterior } from '../../../src/core/trial/walkModel.ts';

const photo = (parts: Partial<WalkPhoto> = {}): WalkPhoto => ({
  gapS: 40,
  labelPlots: [],
  namePlot: null,
  place: null,
  foreign: false,
  ...parts,
});

const walk = (...photos: readonly WalkPhoto[]) =>
  photos.map((one, index) => (index === 0 ? { ...one, gapS: null } : one));

/** Likeliest slot of each photo, with its probability. */
function likeliest(photos: readonly WalkPhoto[], plots: number, places = 1, useOrder = true) {
  const { slotProbability } = walkPosterior(photos, plots, places, useOrder);
  const slots = plots * places;
  return photos.map((_, index) => {
    const row = [...slotProbability.subarray(index * slots, (index + 1) * slots)];
    const probability = Math.max(...row);
    return { slot: row.indexOf(probability), probability };
  });
}

test('probabilities of a photo add up to one, whatever is in the walk', () => {
  const random = repeatableRandom(11);
  for (let repeat = 0; repeat < 40; repeat++) {
    const [plots, places] = [2 + Math.floor(random() * 6), 1 + Math.floor(random() * 2)];
    const photos = Array.from({ length: 1 + Math.floor(random() * 14) }, () =>
      photo({
        gapS: random() < 0.2 ? null : Math.floor(random() * 200),
        labelPlots: random() < 0.4 ? [Math.floor(random() * plots)] : [],
        namePlot: random() < 0.2 ? Math.floor(random() * plots) : null,
        foreign: random() < 0.1,
      }),
    );
    const { slotProbability, noPlotProbability } = walkPosterior(photos, plots, places, random() < 0.9);
    photos.forEach((_, index) => {
      const slots = slotProbability.subarray(index * plots * places, (index + 1) * plots * places);
      const total = slots.reduce((sum, value) => sum + value, noPlotProbability[index]!);
      expect(total).toBeCloseTo(1, 9);
      expect(slots.every((value) => value >= 0)).toBe(true);
    });
  }
});

test('a walk seen from its other end is the same: forward and backward passes agree', () => {
  // Of a symmetric walk (labels in the middle) the posterior mirrors itself, but for going back, which is rarer than skipping.
  const photos = walk(photo(), photo(), photo({ labelPlots: [2] }), photo(), photo());
  const found = likeliest(photos, 5);
  expect(found.map(({ slot }) => slot)).toEqual([0, 1, 2, 3, 4]);
  expect(found[0]!.probability).toBeCloseTo(found[4]!.probability, 2);
});

test('a full walk without a label is believed; one photo short it is not', () => {
  const full = walk(...Array.from({ length: 16 }, () => photo()));
  expect(likeliest(full, 16).map(({ slot }) => slot)).toEqual([...full.keys()]);
  expect(Math.min(...likeliest(full, 16).map(({ probability }) => probability))).toBeGreaterThan(0.97);
  const short = likeliest(
    full.slice(1).map((one, index) => (index === 0 ? { ...one, gapS: null } : one)),
    16,
  );
  expect(Math.min(...short.map(({ probability }) => probability))).toBeLessThan(0.9);
});

test('a second photo right after the first is of the same plot', () => {
  const photos = walk(photo(), photo(), photo({ gapS: 6 }), photo(), photo());
  const found = likeliest(photos, 4);
  expect(found.map(({ slot }) => slot)).toEqual([0, 1, 1, 2, 3]);
  expect(found[2]!.probability).toBeGreaterThan(0.9);
});

test('a label between fills in its neighbours and shows the plot that was left out', () => {
  const photos = walk(
    photo({ labelPlots: [0] }),
    photo({ labelPlots: [1] }),
    photo(),
    photo({ labelPlots: [4] }),
  );
  const found = likeliest(photos, 5);
  expect(found.map(({ slot }) => slot).filter((_, index) => index !== 2)).toEqual([0, 1, 4]);
  // plot 2 or 3: nobody can know
  expect([2, 3]).toContain(found[2]!.slot);
  expect(found[2]!.probability).toBeLessThan(0.6);
});

test('photos in no order keep their labels and say nothing about the others', () => {
  const photos = walk(...[3, 0, 5, 1, 4, 2].map((plot) => photo({ labelPlots: [plot] })), photo());
  const found = likeliest(photos, 6);
  expect(found.slice(0, 6).map(({ slot }) => slot)).toEqual([3, 0, 5, 1, 4, 2]);
  expect(Math.min(...found.slice(0, 6).map(({ probability }) => probability))).toBeGreaterThan(0.95);
  expect(found[6]!.probability).toBeLessThan(0.6);
});

test('places of a plot are walked one after the other', () => {
  const photos = walk(...Array.from({ length: 8 }, () => photo({ gapS: 20 })));
  expect(likeliest(photos, 4, 2).map(({ slot }) => slot)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  const labelled = walk(photo({ labelPlots: [0], place: 2 }), photo({ labelPlots: [1], place: 1 }));
  expect(likeliest(labelled, 4, 2).map(({ slot }) => slot)).toEqual([1, 2]);
});

/** All paths of a tiny walk, added up one by one: what forward-backward has to give. */
test('agrees with adding up every path by hand', () => {
  // Two plots, three photos, gaps unknown, so that every density is 1; the tidy and untidy steps as in the model.
  const stories = [
    {
      prior: 0.75,
      next: 0.97,
      again: 0.02,
      skip: 2e-4,
      back: 2e-4,
      anywhere: 1e-5,
      round: 1e-3,
      elsewhere: 2e-4,
      ends: [0.97, 0.01, 0.02],
    },
    {
      prior: 0.2,
      next: 0.935,
      again: 0.03,
      skip: 0.005,
      back: 0.004,
      anywhere: 0.002,
      round: 0.01,
      elsewhere: 0.015,
      ends: [0.85, 0.08, 0.07],
    },
  ] as const;
  const [fade, elsewhereAgain] = [0.35, 0.4];
  // states: on 0, on 1, off after 0, off after 1, off before the first
  const weights = new Array<number>(5).fill(0).map(() => new Array<number>(3).fill(0));
  let all = 0;
  for (const story of stories) {
    const [there, near, anywhereEnd] = story.ends;
    const end = (away: number) =>
      anywhereEnd / 2 + (away === 0 ? there : near * (1 - fade) * fade ** (away - 1));
    const onward = (from: number, to: number) => {
      const usual = to === from ? story.again : to === from + 1 ? story.next : story.back;
      return usual + story.anywhere / 2 + (from === 1 && to === 0 ? story.round : 0);
    };
    const start = [end(0), end(1), 0, 0, story.elsewhere];
    const stop = [end(1), end(0), end(1), end(0), anywhereEnd / 2];
    const step = (from: number, to: number): number => {
      if (from === 4) return to === 4 ? elsewhereAgain : to < 2 ? (1 - elsewhereAgain) * end(to) : 0;
      const last = from % 2;
      if (to === 4) return 0;
      if (to >= 2) return to - 2 === last ? (from < 2 ? story.elsewhere : elsewhereAgain) : 0;
      return (from < 2 ? 1 : 1 - elsewhereAgain) * onward(last, to);
    };
    // photos say nothing; the share of labels read is (0 + 1) / (3 + 2), so that a plot without one has 0.8
    const emit = (state: number) => (state < 2 ? 0.8 : 1);
    for (let a = 0; a < 5; a++) {
      for (let b = 0; b < 5; b++) {
        for (let c = 0; c < 5; c++) {
          const path =
            story.prior * start[a]! * emit(a) * step(a, b) * emit(b) * step(b, c) * emit(c) * stop[c]!;
          all += path;
          for (const [index, state] of [a, b, c].entries()) weights[state]![index]! += path;
        }
      }
    }
  }
  // the story without order: each photo for itself, 0.97 on a plot, 0.03 on none
  const free = 0.05 * (0.97 * 0.8 + 0.03) ** 3;
  const freeSlot = (0.97 * 0.8) / 2 / (0.97 * 0.8 + 0.03);
  const { slotProbability, orderProbability } = walkPosterior(
    Array.from({ length: 3 }, () => photo({ gapS: null })),
    2,
    1,
    true,
  );
  expect(orderProbability).toBeCloseTo(all / (all + free), 12);
  for (let index = 0; index < 3; index++) {
    for (const slot of [0, 1]) {
      const expected = (weights[slot]![index]! + free * freeSlot) / (all + free);
      expect(slotProbability[index * 2 + slot]).toBeCloseTo(expected, 12);
    }
  }
});
