import type { CountedPhoto } from '../../src/core/point-grid/countedPhoto.ts';
import type { PointCall } from '../../src/core/point-grid/pointCall.ts';
import type {
  ReportComparison,
  ReportFigure,
  ReportPhoto,
  ReportSource,
} from '../../src/core/report/reportSource.ts';
import { compareTrial, datesOf } from '../../src/core/statistics/compareTrial.ts';
import type { ComparedVariable, DeclaredAnalysis } from '../../src/core/statistics/declaredAnalysis.ts';
import { declaredOptions, withoutExcluded } from '../../src/core/statistics/declaredComparison.ts';
import { trialObservations } from '../../src/core/statistics/trialObservations.ts';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';
import { appliedProduct, samplePlan } from '../core/trial/samplePlan.ts';

export const DATES = ['2027-06-21', '2027-07-26'] as const;
const GAP_RULE = { kind: 'small-patches-to-surroundings', smallerThanMm: 7.5 } as const;

/** A plan in which every field that a report tells of has a value no other field has. */
export function fullPlan(): TrialPlan {
  const plan = samplePlan();
  return {
    ...plan,
    trial: {
      ...plan.trial,
      objective: 'Whether objective-mark holds.',
      site: {
        name: 'Larkrise Park',
        latitudeDegrees: -33.4021,
        longitudeDegrees: 151.7033,
        notes: 'site-mark',
      },
      turf: { species: 'perennial ryegrass', cultivar: 'cultivar-mark', sownOver: 'sown-over-mark' },
      sowing: { date: '2027-03-08', rate: { amount: 11.93, unit: 'g/m2' } },
      mowing: { heightMm: 23.5, notes: 'mowing-mark' },
      soil: 'soil-mark',
      irrigation: 'irrigation-mark',
      plotSize: { grossWidthMm: 1731, grossLengthMm: 2219, netWidthMm: 1307, netLengthMm: 1709 },
      gapRule: GAP_RULE,
    },
    treatments: plan.treatments.map((treatment) =>
      treatment.number === 3 ? { ...treatment, notes: 'treatment-mark' } : treatment,
    ),
    applications: plan.applications.map((application, index) =>
      index > 0
        ? application
        : {
            ...application,
            products: [appliedProduct({ name: 'product-mark', rate: { amount: 2.773, unit: 'L/ha' } })],
            equipment: 'sprayer-mark',
            nozzle: 'nozzle-mark',
            pressure: { amount: 2.37, unit: 'bar' },
            carrierVolume: { amount: 431, unit: 'L/ha' },
            progress: {
              state: 'done',
              date: '2027-02-25',
              finishedAt: '07:13',
              by: 'applicator-mark',
              weather: {
                airTemperatureC: 13.7,
                soilTemperatureC: 9.3,
                relativeHumidityPercent: 61,
                wind: { amount: 1.9, unit: 'm/s' },
                cloudPercent: 37,
                notes: 'weather-mark',
              },
              deviations: 'otherwise-mark',
            },
          },
    ),
    layout: { ...plan.layout!, seed: 987_654, swaps: [['101', '102']] },
    framePlan: {
      placesPerPlot: 5,
      draw: 'fixed',
      seed: 1,
      frameWidthMm: 517,
      frameLengthMm: 613,
      edgeMm: 100,
      apartMm: 100,
      measuredFrom: 'near-left',
      markedFrameCorner: 'near-left',
    },
    ratings: plan.ratings.map((rating, index) =>
      index === 2
        ? {
            ...rating,
            doneOn: DATES[0],
            conditions: {
              daysSinceMowing: 3,
              dew: true,
              frost: null,
              sky: 'overcast',
              turfGrowthStage: 'stage-turf-mark',
              weedGrowthStage: 'stage-weed-mark',
              device: 'noted-camera-mark',
              notes: 'conditions-mark',
            },
          }
        : rating,
    ),
    ratedVariables: [
      { id: 'quality', name: 'quality-mark', unit: '1-9', least: 1, most: 9, step: 0.5, better: 'higher' },
    ],
    deviations: [
      {
        id: 'D1',
        plot: '203',
        date: DATES[0],
        what: 'deviation-mark',
        effect: 'effect-mark',
        reason: 'deviation-reason-mark',
        by: 'K',
      },
    ],
    exclusions: [
      {
        id: 'X1',
        plot: '404',
        ratingDate: null,
        variable: null,
        reason: 'exclusion-mark',
        by: 'K',
      },
    ],
  };
}

const FRAME = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
] as unknown as NonNullable<ReportFigure['settings']['frame']>['corners'];

/** Weedy grass in percent, made up: lower the higher the treatment, rising over time. */
const weeds = (treatment: number, block: number, date: number) =>
  38 - 7 * treatment + 2 * block + 5 * date + ((treatment * 7 + block * 3 + date) % 4);

function figure(plan: TrialPlan, id: string, percent: number): ReportFigure {
  const rest = 100 - percent;
  return {
    id,
    cover: [
      { classId: 'ryegrass', coverFraction: (0.9 * rest) / 100 },
      { classId: 'weedy-grass', coverFraction: percent / 100 },
      { classId: 'bare-ground', coverFraction: (0.1 * rest) / 100 },
    ],
    flags: [],
    measuredPixels: 10_000,
    millimetresPerPixel: 0.83,
    modelId: 'start-mark',
    softwareVersion: '0.0.7-mark',
    decoder: 'decoder-mark',
    settings: {
      classes: plan.trial.classes,
      frame: { corners: FRAME, sizeMm: [517, 613] },
      ignored: [],
      neutral: [1, 1, 5, 5],
      gapRule: GAP_RULE,
    },
  };
}

export function photosOf(plan: TrialPlan): ReportPhoto[] {
  return DATES.flatMap((ratingDate, date) =>
    plan.plots.map(({ plot, treatment, block }): ReportPhoto => {
      const id = `${ratingDate} ${plot}`;
      const automatic = figure(plan, `automatic ${id}`, weeds(treatment, block!, date));
      return {
        id,
        name: `${ratingDate}_${plot}.jpg`,
        plot,
        place: null,
        ratingDate,
        camera: { device: 'camera-mark' },
        frameBy: 'finder-confirmed',
        figures: { automatic },
      };
    }),
  );
}

/** Comparisons of the declared variable and then the other classes, as the page works them out. */
export function comparisonsOf(
  plan: TrialPlan,
  photos: readonly ReportPhoto[],
  declared: DeclaredAnalysis,
): ReportComparison[] {
  const variables: ComparedVariable[] = [
    declared.variable,
    { kind: 'class', classId: 'ryegrass' },
    { kind: 'class', classId: 'bare-ground' },
  ];
  return variables.map((variable) => {
    const found = trialObservations({ plan, photos, scores: [] }, variable, declared.method);
    const used = withoutExcluded(found.observations, variable, declared);
    const options = declaredOptions(plan, declared, variable, used);
    const { analyses, overDates } = compareTrial(used, options);
    return {
      variable,
      observations: { ...found, observations: used },
      options,
      dates: datesOf(used),
      byDate: new Map(analyses.map((analysis) => [analysis.ratingDate, analysis])),
      overDates: overDates[0] ?? null,
    };
  });
}

export function declaredOf(plan: TrialPlan): DeclaredAnalysis {
  return {
    variable: { kind: 'class', classId: 'weedy-grass' },
    method: 'automatic',
    when: { kind: 'date', ratingDate: DATES[1] },
    transform: 'none',
    alpha: 0.05,
    controlThreshold: 20,
    minimumPressure: 5,
    classes: plan.trial.classes,
    gapRule: plan.trial.gapRule,
    exclusions: plan.exclusions,
  };
}

/** Points of one photo: one observer, calls as given, the mask saying weedy grass everywhere. */
export function countedPhoto(
  photo: Pick<ReportPhoto, 'id' | 'plot' | 'ratingDate'>,
  called: readonly (string | null)[],
  { observer = 'observer-mark', hasStrokes = false } = {},
): CountedPhoto {
  const at = [1, 1] as unknown as PointCall['at'];
  return {
    photoId: photo.id,
    plot: photo.plot,
    ratingDate: photo.ratingDate,
    treatment: null,
    hasStrokes,
    set: { points: [] } as unknown as CountedPhoto['set'],
    places: called.map((_, index) => ({ id: index + 1, at, isOutside: false })),
    calls: called.map((classId, index) => ({
      pointId: index + 1,
      observer,
      classId,
      at,
      calledAt: '2027-08-01T00:00:00Z',
      gapRule: GAP_RULE,
    })),
    otherRuleCalls: 0,
    mask: {
      labels: new Map(called.map((_, index) => [index + 1, 2])),
      mappedFraction: [0.5, 0.4, 0.1],
    },
  };
}

/** Records in which everything a report tells of is there. */
export function fullSource(): ReportSource {
  const plan = fullPlan();
  const photos = photosOf(plan);
  const declared = declaredOf(plan);
  const corrected = photos[0]!;
  const own = corrected.figures.automatic!;
  const withCorrection = [
    {
      ...corrected,
      figures: {
        automatic: own,
        corrected: { ...own, id: 'corrected', changedFraction: 0.3333, modelId: own.modelId },
      },
    },
    ...photos.slice(1, 16),
    // the second date was measured by a taught model
    ...photos.slice(16).map((photo) => ({
      ...photo,
      figures: {
        automatic: {
          ...photo.figures.automatic!,
          modelId: 'taught-mark',
          settings: { ...photo.figures.automatic!.settings, modelId: 'taught-mark' },
        },
      },
    })),
  ];
  return {
    plan,
    photos: withCorrection,
    scores: [{ variable: 'quality', plot: '101', ratingDate: DATES[0], value: 6.5, rater: 'rater-mark' }],
    weather: [
      { day: '2027-05-03', airC: 12, airLeastC: null, airMostC: null, soilC: null, rainMm: 4 },
      { day: '2027-05-09', airC: 13, airLeastC: null, airMostC: null, soilC: null, rainMm: 0 },
    ],
    declarations: [
      { by: 'declarer-mark', at: '2027-08-02T00:00:00.000Z', reason: null, declared },
      { by: 'amender-mark', at: '2027-08-03T00:00:00.000Z', reason: 'amendment-mark', declared },
    ],
    comparisons: comparisonsOf(plan, withCorrection, declared),
    reviews: [{ photoId: photos[1]!.id, verdict: 'accepted', figureId: photos[1]!.figures.automatic!.id }],
    signOffs: [
      { ratingDate: DATES[0], by: 'signer-mark', at: '2027-08-01T00:00:00.000Z', reason: 'sign-reason-mark' },
    ],
    counted: [
      countedPhoto(photos[0]!, ['weedy-grass', 'ryegrass', 'weedy-grass', null]),
      countedPhoto(photos[1]!, ['weedy-grass', 'bare-ground', 'weedy-grass', 'weedy-grass']),
    ],
    models: [{ id: 'taught-mark', photos: 23, agreement: { cells: 4321, share: 0.873 } }],
    softwareVersion: '0.1.0',
    databaseVersion: 4,
    madeAt: '2027-09-01T08:00:00.000Z',
  };
}
