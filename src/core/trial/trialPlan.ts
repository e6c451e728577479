import { z } from 'zod';
import { applicationSchema, seasonLimitSchema } from './application.ts';
import { deviationSchema, exclusionSchema } from './deviation.ts';
import { framePlanSchema } from './framePlaces.ts';
import { layoutSchema } from './layout.ts';
import { MOST_PLOTS, plotSchema } from './plot.ts';
import { ratedVariableSchema, ratingSchema } from './rating.ts';
import { treatmentSchema } from './treatment.ts';
import { trialSchema } from './trial.ts';

/**
 * A whole trial plan: what was meant, and what was done of it. Scores and photos are kept beside it.
 * The records are sound one by one; whether they go together is asked with `planProblems`.
 */
export const trialPlanSchema = z.strictObject({
  type: z.literal('trial-plan'),
  version: z.literal(1),
  trial: trialSchema,
  treatments: z.array(treatmentSchema).max(200),
  applications: z.array(applicationSchema).max(2000),
  seasonLimits: z.array(seasonLimitSchema).max(200),
  layout: layoutSchema.nullable(),
  plots: z.array(plotSchema).max(MOST_PLOTS),
  framePlan: framePlanSchema.nullable(),
  ratings: z.array(ratingSchema).max(500),
  ratedVariables: z.array(ratedVariableSchema).max(100),
  deviations: z.array(deviationSchema).max(2000),
  exclusions: z.array(exclusionSchema).max(2000),
});
export type TrialPlan = z.infer<typeof trialPlanSchema>;
