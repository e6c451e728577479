import type { Factor, ModelTerm } from './linearModel/modelTerm.ts';
import type { PlotObservation, TrialDesign } from './plotObservation.ts';

/**
 * Terms of the linear model of a design: what the ground explains first, then a baseline, then the treatment.
 *
 * @param treatment terms of the treatment: one factor, or several and their interactions
 * @throws RangeError when the design needs a block, row or column that an observation lacks
 */
export function designTerms(
  observations: readonly PlotObservation[],
  design: TrialDesign,
  treatment: readonly ModelTerm[],
  withCovariate: boolean,
): ModelTerm[] {
  const ground = groundFactors(design).map((name) => {
    const values = observations.map((observation) => {
      const value = observation[name];
      if (value === null) throw new RangeError(`${design} needs a ${name} for plot ${observation.plot}`);
      return value;
    });
    return { name, factors: [{ name, values }] };
  });
  if (!withCovariate) return [...ground, ...treatment];
  const covariate = observations.map(({ plot, covariate }) => {
    if (covariate === undefined || covariate === null) throw new RangeError(`plot ${plot} has no covariate`);
    return covariate;
  });
  return [...ground, { name: 'covariate', covariate }, ...treatment];
}

/** What of the ground a design takes into account. */
export function groundFactors(design: TrialDesign): readonly ('block' | 'row' | 'column')[] {
  if (design === 'randomized-complete-block') return ['block'];
  return design === 'latin-square' ? ['row', 'column'] : [];
}

/** The treatment as one factor. */
export function treatmentFactor(observations: readonly PlotObservation[]): Factor {
  return { name: 'treatment', values: observations.map((observation) => observation.treatment) };
}

/** All main effects and interactions of treatment factors, low orders first; A, B, A:B. */
export function factorialTerms(
  observations: readonly PlotObservation[],
  names: readonly string[],
): ModelTerm[] {
  const factors = names.map((name) => ({
    name,
    values: observations.map((observation) => {
      const level = observation.factors?.[name];
      if (level === undefined)
        throw new RangeError(`plot ${observation.plot} has no level of factor ${name}`);
      return level;
    }),
  }));
  const subsets = Array.from({ length: 2 ** factors.length - 1 }, (_, index) =>
    factors.filter((_, bit) => ((index + 1) >> bit) & 1),
  );
  return subsets
    .sort((a, b) => a.length - b.length)
    .map((subset) => ({ name: subset.map((factor) => factor.name).join(':'), factors: subset }));
}
