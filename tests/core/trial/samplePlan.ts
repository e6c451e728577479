import { readFileSync } from 'node:fs';
import type { SampleTrial } from '../../../src/app/session/trialPlans.ts';
import type { Application } from '../../../src/core/trial/application.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { TrialPlan } from '../../../src/core/trial/trialPlan.ts';

/** The sample trial as it stands in sample-images/trial.json. */
export const sampleTrial = JSON.parse(
  readFileSync(new URL('../../../sample-images/trial.json', import.meta.url), 'utf8'),
) as SampleTrial;

/** The sample trial as a plan of this program; tests change copies of it. */
export function samplePlan(): TrialPlan {
  return {
    type: 'trial-plan',
    version: 1,
    trial: {
      code: 'K7QF3M',
      name: 'Outfield east',
      site: { name: sampleTrial.site, latitudeDegrees: null, longitudeDegrees: null, notes: '' },
      turf: { species: 'perennial ryegrass', cultivar: null, sownOver: 'dormant warm-season turf' },
      sowing: { date: sampleTrial.sowingDate, rate: { amount: 10, unit: 'lb/1000 ft2' } },
      mowing: { heightMm: 15, notes: '' },
      soil: '',
      irrigation: '',
      plotSize: { grossWidthMm: 1500, grossLengthMm: 2000, netWidthMm: 1200, netLengthMm: 1700 },
      classes: DEFAULT_CLASSES.map((one) => ({ ...one })),
      gapRule: { kind: 'every-pixel' },
      raters: ['K'],
    },
    treatments: sampleTrial.treatments.map(({ treatment, name }) => ({
      number: Number(treatment),
      name,
      untreatedControl: treatment === '1' ? 'included' : null,
      levels: {},
      notes: '',
    })),
    applications: sampleTrial.applications.map(({ treatment, product, date }, index) =>
      plannedApplication({
        id: `A${index + 1}`,
        treatments: [Number(treatment)],
        description: product,
        timing: { kind: 'date', date },
      }),
    ),
    seasonLimits: [],
    layout: {
      design: 'randomized-complete-block',
      replicates: 4,
      rowsPerBlock: 1,
      blocksAcross: 1,
      numbering: 'by-block',
      seed: null,
      swaps: [],
    },
    plots: sampleTrial.plots.map((plot) => ({ ...plot, treatment: Number(plot.treatment) })),
    framePlan: null,
    ratings: sampleTrial.ratingDates.map((date, index) => ({
      id: `R${index + 1}`,
      timing: { kind: 'date', date },
      windowDays: { before: 0, after: 0 },
      doneOn: null,
      conditions: null,
    })),
    ratedVariables: [],
    deviations: [],
    exclusions: [],
  };
}

type Product = Application['products'][number];

export function plannedApplication(parts: Partial<Application> & { readonly id: string }): Application {
  return {
    treatments: [2],
    description: 'coded product L-31',
    products: [],
    timing: { kind: 'date', date: '2027-02-24' },
    windowDays: { before: 0, after: 0 },
    temperatureWindow: null,
    carrierVolume: null,
    equipment: null,
    nozzle: null,
    pressure: null,
    reEntryHours: null,
    progress: { state: 'planned' },
    ...parts,
  };
}

export function appliedProduct(parts: Partial<Product> = {}): Product {
  return {
    name: 'coded product L-31',
    activeIngredients: [],
    rate: null,
    use: 'experimental',
    costPerHectare: null,
    ...parts,
  };
}

export function doneOn(date: string, finishedAt: string | null = null): Application['progress'] {
  return { state: 'done', date, finishedAt, by: 'K', weather: null, deviations: '' };
}
