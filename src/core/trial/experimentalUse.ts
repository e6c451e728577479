import type { TrialPlan } from './trialPlan.ts';

/** Whether a plan holds a use that no label allows: then every table says so. */
export const isExperimental = ({ applications }: Pick<TrialPlan, 'applications'>): boolean =>
  applications.some(({ products }) => products.some(({ use }) => use === 'experimental'));
