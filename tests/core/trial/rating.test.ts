import { expect, test } from 'vitest';
import { checkRecord } from '../../../src/core/trial/checkRecord.ts';
import {
  COMMON_RATED_VARIABLES,
  ratedVariableSchema,
  scoreProblem,
  scoreSheet,
} from '../../../src/core/trial/rating.ts';
import { walkingOrder } from '../../../src/core/trial/walkingOrder.ts';
import { samplePlan } from './samplePlan.ts';

const quality = COMMON_RATED_VARIABLES[0]!;

test.each([
  [1, null],
  [6.5, null],
  [9, null],
  [0.5, { code: 'score-out-of-bounds', least: 1, most: 9 }],
  [9.5, { code: 'score-out-of-bounds', least: 1, most: 9 }],
  [6.3, { code: 'score-between-steps', step: 0.5, below: 6, above: 6.5 }],
  [Number.NaN, { code: 'score-not-a-number' }],
])('a score of %d on 1 to 9 by halves: %j', (value, problem) => {
  expect(scoreProblem(value, quality)).toEqual(problem);
});

test('decimal steps are met in spite of binary fractions', () => {
  const tenths = { ...quality, least: 0, most: 1, step: 0.1 };
  for (let tenth = 0; tenth <= 10; tenth++) expect(scoreProblem(tenth * 0.1, tenths)).toBeNull();
  expect(scoreProblem(0.35, tenths)).toMatchObject({ below: 0.3, above: 0.4 });
});

test('common scales are sound, and unsound ones are refused by their field', () => {
  for (const variable of COMMON_RATED_VARIABLES) {
    expect(checkRecord(ratedVariableSchema, variable)).toEqual({ ok: true, value: variable });
  }
  expect(checkRecord(ratedVariableSchema, { ...quality, most: 1 })).toMatchObject({
    problems: [{ field: 'most', code: 'bounds-crossed' }],
  });
  expect(checkRecord(ratedVariableSchema, { ...quality, step: 3 })).toMatchObject({
    problems: [{ field: 'step', code: 'step-does-not-fit' }],
  });
});

test('the sheet for scoring follows the walk and holds no treatment', () => {
  const sheet = scoreSheet(walkingOrder(samplePlan().plots));
  expect(sheet).toHaveLength(16);
  expect(sheet[4]).toEqual({ position: 5, plot: '204', row: 2, column: 4 });
  expect(JSON.stringify(sheet)).not.toMatch(/treatment/);
});
