import { expect, test } from 'vitest';
import { scoreBoard } from '../../../src/core/trial/scoreBoard.ts';

test('the board counts who scored, blind to what; other variables, plots and dates stay out', () => {
  const score = (plot: string, rater: string, value: number | null, variable = 'turf-quality') => ({
    variable,
    plot,
    ratingDate: '2027-05-17',
    value,
    rater,
  });
  const scores = [
    score('101', 'K', 6.5),
    score('101', 'M', 7),
    score('102', 'K', null),
    score('103', 'K', 20, 'turf-injury'),
    score('999', 'K', 5),
  ];
  const cells = scoreBoard(scores, 'turf-quality', ['101', '102', '103'], ['2027-05-17', '2027-06-21']);
  expect(cells.map((cell) => [cell.plot, cell.ratingDate, cell.scores, cell.notRateable])).toEqual([
    ['101', '2027-05-17', 2, 0],
    ['101', '2027-06-21', 0, 0],
    ['102', '2027-05-17', 0, 1],
    ['102', '2027-06-21', 0, 0],
    ['103', '2027-05-17', 0, 0],
    ['103', '2027-06-21', 0, 0],
  ]);
});
