import { DEFAULT_CLASSES } from '../../core/trial/defaultClasses.ts';
import { newTrialCode } from '../../core/trial/plotLabel.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';

/** A plan with nothing in it but its name, and what every trial needs. */
export function emptyPlan(name: string, site: string, species: string, random: () => number): TrialPlan {
  return {
    type: 'trial-plan',
    version: 1,
    trial: {
      code: newTrialCode(random),
      name,
      site: { name: site, latitudeDegrees: null, longitudeDegrees: null, notes: '' },
      turf: { species, cultivar: null, sownOver: null },
      sowing: { date: null, rate: null },
      mowing: { heightMm: null, notes: '' },
      soil: '',
      irrigation: '',
      plotSize: null,
      classes: DEFAULT_CLASSES.map((one) => ({ ...one })),
      gapRule: { kind: 'every-pixel' },
      raters: [],
    },
    treatments: [],
    applications: [],
    seasonLimits: [],
    layout: null,
    plots: [],
    framePlan: null,
    ratings: [],
    ratedVariables: [],
    deviations: [],
    exclusions: [],
  };
}

/** A trial as sample-images/trial.json tells it. */
export interface SampleTrial {
  readonly site: string;
  readonly sowingDate: string;
  readonly ratingDates: readonly string[];
  readonly walkingOrder: readonly string[];
  readonly treatments: readonly { readonly treatment: string; readonly name: string }[];
  readonly applications: readonly {
    readonly treatment: string;
    readonly product: string;
    readonly date: string;
  }[];
  readonly plots: readonly {
    readonly plot: string;
    readonly block: number;
    readonly treatment: string;
    readonly row: number;
    readonly column: number;
  }[];
  readonly untreatedControl: string;
  readonly blocks: number;
}

/** The invented trial that the sample photos come from. */
export async function samplePlan(name: string, random: () => number): Promise<TrialPlan> {
  const sample = (await import('../../../sample-images/trial.json')).default as SampleTrial;
  const plan = emptyPlan(name, sample.site, 'perennial ryegrass', random);
  // treatments that get the same on the same day share one visit
  const visits = new Map<string, { product: string; date: string; treatments: number[] }>();
  for (const { treatment, product, date } of sample.applications) {
    const key = `${date} ${product}`;
    const visit = visits.get(key) ?? { product, date, treatments: [] };
    visit.treatments.push(Number(treatment));
    visits.set(key, visit);
  }
  return {
    ...plan,
    trial: {
      ...plan.trial,
      turf: { ...plan.trial.turf, sownOver: 'dormant warm-season turf' },
      sowing: { date: sample.sowingDate, rate: null },
    },
    treatments: sample.treatments.map(({ treatment, name: treatmentName }) => ({
      number: Number(treatment),
      name: treatmentName,
      untreatedControl: treatment === sample.untreatedControl ? 'included' : null,
      levels: {},
      notes: '',
    })),
    applications: [...visits.values()].map(({ product, date, treatments }, index) => ({
      id: `A${index + 1}`,
      treatments,
      description: product,
      products: [
        { name: product, activeIngredients: [], rate: null, use: 'experimental', costPerHectare: null },
      ],
      timing: { kind: 'date', date },
      windowDays: { before: 0, after: 0 },
      temperatureWindow: null,
      carrierVolume: null,
      equipment: null,
      nozzle: null,
      pressure: null,
      reEntryHours: null,
      progress: { state: 'done', date, finishedAt: null, by: null, weather: null, deviations: '' },
    })),
    layout: {
      design: 'randomized-complete-block',
      replicates: sample.blocks,
      rowsPerBlock: 1,
      blocksAcross: 1,
      numbering: 'by-block',
      seed: null,
      swaps: [],
    },
    plots: sample.plots.map((plot) => ({ ...plot, treatment: Number(plot.treatment) })),
    ratings: sample.ratingDates.map((date, index) => ({
      id: `R${index + 1}`,
      timing: { kind: 'date', date },
      windowDays: { before: 0, after: 0 },
      doneOn: null,
      conditions: null,
    })),
  };
}
