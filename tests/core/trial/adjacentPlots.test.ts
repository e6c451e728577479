import { expect, test } from 'vitest';
import { adjacentPlots } from '../../../src/core/trial/adjacentPlots.ts';
import { drawLayout, type Layout } from '../../../src/core/trial/layout.ts';
import { layoutProblems } from '../../../src/core/trial/layoutProblems.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const layout: Layout = {
  design: 'randomized-complete-block',
  replicates: 4,
  rowsPerBlock: 1,
  blocksAcross: 1,
  numbering: 'by-block',
  seed: 7,
  swaps: [],
};
const placesOf = (one: Layout) => {
  const plots = drawLayout([1, 2, 3, 4], one, repeatableRandom(7));
  const beside = adjacentPlots(plots, 9);
  expect(layoutProblems([...plots, ...beside], [1, 2, 3, 4], one.design, [9])).toEqual([]);
  return beside.map(({ plot, block, row, column }) => [plot, block, row, column]);
};

test('one beside each block, named on from its plots', () => {
  expect(placesOf(layout)).toEqual([
    ['105', 1, 1, 5],
    ['205', 2, 2, 5],
    ['305', 3, 3, 5],
    ['405', 4, 4, 5],
  ]);
});

test('blocks side by side: the controls stand at the ends of the rows', () => {
  expect(placesOf({ ...layout, blocksAcross: 2 })).toEqual([
    ['105', 1, 1, 9],
    ['205', 2, 1, 10],
    ['305', 3, 2, 9],
    ['405', 4, 2, 10],
  ]);
});

test('without blocks one at the end of each row', () => {
  expect(placesOf({ ...layout, design: 'completely-randomized', numbering: 'in-order' })).toEqual([
    ['17', null, 1, 5],
    ['18', null, 2, 5],
    ['19', null, 3, 5],
    ['20', null, 4, 5],
  ]);
});
