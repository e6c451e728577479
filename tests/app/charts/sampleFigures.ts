import type { CostAgainstCoverProps } from '../../../src/app/charts/CostAgainstCover.tsx';
import type { ChartTreatment, TreatmentMean } from '../../../src/app/charts/chartTypes.ts';
import type { CoverOverTimeProps } from '../../../src/app/charts/coverOverTimeProps.ts';
import type { TreatmentBarsProps } from '../../../src/app/charts/treatmentBarsProps.ts';

export const TREATMENTS: readonly ChartTreatment[] = [
  { treatment: '1', label: 'untreated control' },
  { treatment: '2', label: 'coded product L-31 before sowing' },
  { treatment: '3', label: 'growth regulator programme' },
];

export const WORDS = { title: 'Weedy grass cover', fileName: 'weedy-grass' };
export const QUANTITY = { name: 'Weedy grass cover', unit: '%' };

/** A mean with its interval 2 standard errors to both sides. */
export function meanOf(place: number, mean: number | null, standardError: number | null = 2): TreatmentMean {
  const known = mean !== null && standardError !== null;
  return {
    ...TREATMENTS[place]!,
    mean,
    standardError: known ? standardError : null,
    low: known ? mean - 2 * standardError : null,
    high: known ? mean + 2 * standardError : null,
    n: mean === null ? 0 : 4,
    letters: mean === null ? null : 'abc'[place]!,
  };
}

export const bars = (means: readonly TreatmentMean[]): TreatmentBarsProps => ({
  ...WORDS,
  quantity: QUANTITY,
  ratingDate: '2027-06-21',
  means,
});

export const overTime = (dates: CoverOverTimeProps['dates']): CoverOverTimeProps => ({
  ...WORDS,
  quantity: QUANTITY,
  treatments: TREATMENTS,
  dates,
});

export const costs = (programmes: CostAgainstCoverProps['programmes']): CostAgainstCoverProps => ({
  ...WORDS,
  quantity: QUANTITY,
  currency: 'crowns',
  ratingDate: '2027-06-21',
  programmes,
});
