import { expose } from 'comlink';
import { ComparisonDesk } from '../src/core/statistics/comparisonDesk.ts';
import type { CompareApi } from './compareApi.ts';

const desk = new ComparisonDesk();

const compareApi: CompareApi = {
  put: (name, observations, options) => desk.put(name, observations, options),
  onDate: (name, ratingDate) => desk.onDate(name, ratingDate),
  overDates: (name) => desk.overDates(name),
  residuals: (name, ratingDate) => desk.residuals(name, ratingDate),
};
expose(compareApi);
