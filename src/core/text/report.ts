import type { CoverMethod } from '../exchange/coverTable.ts';
import { writeTiming } from '../exchange/trialTablesTiming.ts';
import type { ConductEntry, ReportApplication } from '../report/conductRecord.ts';
import type { ReportTreatment, TrialReport } from '../report/trialReport.ts';
import type { FoundOrNot } from '../statistics/declaredFinding.ts';
import type { AppliedProduct } from '../trial/application.ts';
import { type Quantity, siQuantity } from '../trial/quantity.ts';
import { catalogue } from './catalogue.ts';
import { compareText } from './compare.ts';
import { formatCount, formatDay, formatDecimals, formatQuantity } from './format.ts';
import { planText } from './plan.ts';
import { listed, siQuantityText } from './trial.ts';
import { usLength, usTemperature, withUsUnits } from './units.ts';

/** Said wherever something is not known. */
export const NOT_RECORDED = catalogue('NOT_RECORDED', 'not recorded');

/** "1.5 fl oz/1000 ft2 (4.775 L/ha)"; a unit that is international already stands alone. */
export const quantityWords = catalogue('quantityWords', (quantity: Quantity): string => {
  const written = `${quantity.amount} ${quantity.unit}`;
  const si = siQuantityText(siQuantity(quantity));
  return si === written ? written : `${written} (${si})`;
});

/** "coded product L-31, 2 L/ha, experimental". */
export const productWords = catalogue(
  'productWords',
  ({ name, rate, use, activeIngredients }: AppliedProduct): string => {
    const ingredients = activeIngredients.map(({ name: ingredient }) => ingredient);
    return [
      ingredients.length > 0 ? `${name} (${listed(ingredients)})` : name,
      rate ? quantityWords(rate) : `rate ${NOT_RECORDED}`,
      ...(use === 'experimental' ? ['experimental'] : []),
    ].join(', ');
  },
);

/** What was noted of the weather of an application; null where nothing was. */
function weatherWords(
  weather: Extract<ConductEntry, { kind: 'application' }>['done']['weather'],
): string | null {
  if (!weather) return null;
  const { airTemperatureC, soilTemperatureC, relativeHumidityPercent, wind, cloudPercent, notes } = weather;
  const parts = [
    airTemperatureC !== null && `air ${degrees(airTemperatureC)}`,
    soilTemperatureC !== null && `soil ${degrees(soilTemperatureC)}`,
    relativeHumidityPercent !== null && `humidity ${formatNumber(relativeHumidityPercent)} %`,
    wind && `wind ${quantityWords(wind)}`,
    cloudPercent !== null && `cloud ${formatNumber(cloudPercent)} %`,
    notes.trim(),
  ].filter((part): part is string => Boolean(part));
  return parts.length > 0 ? parts.join(', ') : null;
}

const degrees = (celsius: number): string =>
  withUsUnits(`${formatNumber(celsius)} °C`, usTemperature(celsius));

const formatNumber = (value: number): string => String(value).replace('-', '−');

/** What was noted of a rating date; null where nothing was. */
function conditionWords(conditions: Extract<ConductEntry, { kind: 'rating' }>['conditions']): string | null {
  if (!conditions) return null;
  const { daysSinceMowing, dew, frost, sky, turfGrowthStage, weedGrowthStage, device, notes } = conditions;
  const parts = [
    sky && `sky ${planText.conditions.choices.sky[sky]}`,
    daysSinceMowing !== null && `${formatQuantity(daysSinceMowing, 'day', 'days')} since mowing`,
    dew !== null && (dew ? 'dew' : 'no dew'),
    frost !== null && (frost ? 'frost' : 'no frost'),
    turfGrowthStage && `turf at stage ${turfGrowthStage}`,
    weedGrowthStage && `weeds at stage ${weedGrowthStage}`,
    device && `camera noted: ${device}`,
    notes.trim(),
  ].filter((part): part is string => Boolean(part));
  return parts.length > 0 ? parts.join(', ') : null;
}

/** A line of the conduct record in words: what, who, conditions, otherwise than planned. */
export interface ConductWords {
  readonly day: string;
  readonly what: string;
  readonly by: string;
  readonly conditions: string;
  readonly deviations: string;
}

const NOTHING = '–';

export const conductWords = catalogue('conductWords', (entry: ConductEntry): ConductWords => {
  const day = formatDay(entry.day, 'short');
  switch (entry.kind) {
    case 'sowing':
      return { day, what: 'Sowing', by: NOTHING, conditions: NOTHING, deviations: NOTHING };
    case 'application': {
      const { id, description, treatments, done } = entry;
      const treated =
        treatments.length === 1 ? `treatment ${treatments[0]}` : `treatments ${listed(treatments)}`;
      return {
        day: done.finishedAt === null ? day : `${day}, ${done.finishedAt}`,
        what: `Application ${id}${description === null ? '' : `: ${description}`} (${treated})`,
        by: done.by ?? NOT_RECORDED,
        conditions: weatherWords(done.weather) ?? NOT_RECORDED,
        deviations: done.deviations.trim() || 'none recorded',
      };
    }
    case 'rating': {
      const got = [
        entry.photos > 0 && formatQuantity(entry.photos, 'photo', 'photos'),
        entry.scoredPlots > 0 && `${formatQuantity(entry.scoredPlots, 'plot', 'plots')} scored`,
      ].filter((part): part is string => Boolean(part));
      return {
        day,
        what: got.length > 0 ? `Rating: ${got.join(', ')}` : 'Rating',
        by: NOTHING,
        conditions: conditionWords(entry.conditions) ?? NOT_RECORDED,
        deviations: NOTHING,
      };
    }
  }
});

/** "done 24 Feb 2027", "planned for 1 Mar 2027", "left out: rain". */
export const progressWords = catalogue('progressWords', ({ progress, day }: ReportApplication): string => {
  switch (progress.state) {
    case 'done':
      return `done ${formatDay(progress.date, 'short')}`;
    case 'left-out':
      return `left out: ${progress.why}`;
    case 'planned':
      return day === null
        ? 'planned, no day yet'
        : `planned for ${formatDay(day, 'short')}, not recorded as done`;
  }
});

/** A timing as it was planned. */
export const timingWords = catalogue('timingWords', ({ timing }: ReportApplication): string =>
  timing.kind === 'date' ? formatDay(timing.date, 'short') : writeTiming(timing),
);

/** How an application was put out; null where nothing of it is recorded. */
export const equipmentWords = catalogue(
  'equipmentWords',
  ({ carrierVolume, equipment, nozzle, pressure }: ReportApplication): string | null => {
    const parts = [
      equipment,
      nozzle && `nozzle ${nozzle}`,
      pressure && quantityWords(pressure),
      carrierVolume && `carrier ${quantityWords(carrierVolume)}`,
    ].filter((part): part is string => Boolean(part));
    return parts.length > 0 ? parts.join(', ') : null;
  },
);

const CONTROLS = {
  included: 'untreated control',
  adjacent: 'untreated control beside the trial',
} as const;

/** "untreated control" where names are left out; the name else, with the control's role where the name does not say it. */
export const treatmentWords = catalogue(
  'treatmentWords',
  ({ name, untreatedControl }: ReportTreatment): string => {
    const role = untreatedControl && CONTROLS[untreatedControl];
    if (name === null) return role ?? NOTHING;
    return role && !/untreated|control/i.test(name) ? `${name} (${role})` : name;
  },
);

export const levelsWords = catalogue('levelsWords', (levels: ReportTreatment['levels']): string =>
  levels === null
    ? ''
    : Object.entries(levels)
        .map(([factor, level]) => `${factor}: ${level}`)
        .join('; '),
);

/** Cover of a class in percent, with its limits where there are any. */
export const coverWords = catalogue(
  'coverWords',
  (
    cover:
      | { readonly percent: number; readonly low: number | null; readonly high: number | null }
      | undefined,
  ): string => {
    if (!cover) return NOTHING;
    const value = formatDecimals(cover.percent, 1);
    return cover.low === null || cover.high === null
      ? value
      : `${value} (${formatDecimals(cover.low, 1)} to ${formatDecimals(cover.high, 1)})`;
  },
);

/** Why there is no finding. */
export const noFindingText = catalogue(
  'noFindingText',
  (found: Extract<FoundOrNot, { ok: false }>): string => {
    switch (found.why) {
      case 'pending':
        return compareText.finding.pending;
      case 'not-rated':
        return compareText.finding.notRated(found.ratingDate);
      case 'area-needs-dates':
        return compareText.finding.areaNeedsDates;
    }
  },
);

const METHODS: Readonly<Record<CoverMethod, string>> = {
  automatic: 'automatic',
  corrected: 'corrected',
  points: 'points',
  adjusted: 'adjusted',
  visual: 'by eye',
};

/** What the report and its screen say. */
export const reportText = catalogue('reportText', {
  /** BCP 47 tag of the language that these words are in. */
  language: 'en',
  none: NOTHING,
  notRecorded: NOT_RECORDED,
  notRecordedHead: 'Not recorded',
  unknown: (names: readonly string[]) =>
    names.map((name) => name.charAt(0).toLowerCase() + name.slice(1)).join(', '),
  kind: { long: 'Trial report', short: 'Field day summary' },
  running: (name: string, code: string) => `${name} · ${code}`,
  /** On every page. */
  foot: 'Product label and local regulations decide. Results hold for this site, season, turf and weed population; a cover figure is an estimate.',
  made: (madeAt: string, version: string) =>
    `Made ${formatDay(madeAt.slice(0, 10))} with Swardbook ${version} from the records of the trial.`,
  copyWithoutNames: 'Treatments are shown by number; what was done to them is left out of this copy.',
  copyOfDates: (shown: readonly string[], left: readonly string[]) =>
    `This copy holds ${listed(shown.map((day) => formatDay(day, 'short')))}; left out: ${listed(left.map((day) => formatDay(day, 'short')))}.`,
  finding: 'Finding',
  exploratory: 'Exploratory',
  decides: 'decides',
  notDeclared: 'No analysis was declared, so nothing is shown by treatment.',
  sections: {
    objective: 'Objective',
    methods: 'Methods',
    conduct: 'Conduct of the trial',
    treatments: 'Treatments and applications',
    map: 'Map',
    results: 'Results',
    others: 'Other variables',
    pictures: 'Pictures',
    appendix: 'Appendix: figures of every plot',
    versions: 'Versions',
    caution: 'Caution',
  },
  noRecommendation: 'This program recommends no product and no rate.',
  noObjective: 'The objective is not recorded.',
  noConduct: 'Nothing is recorded as done yet.',
  noApplications: 'No application is planned.',
  noPlots: 'No plots are laid out.',
  noDeviations: 'No deviation is recorded, and no plot is excluded.',
  tables: {
    trial: 'The trial',
    treatments: 'Treatments',
    applications: 'Applications',
    conduct: 'What was done, by day',
    deviations: 'Deviations',
    exclusions: 'Plots excluded from the comparison',
    declared: 'The declared analysis',
    corrections: 'Corrections by hand, by treatment',
    agreement: 'Automatic masks less points, percentage points of cover',
    season: (name: string) => `${name} by treatment and rating date`,
    anova: (title: string) => `${title}: analysis of variance`,
    length: 'Length of control',
    appendix: 'Cover by plot, rating date, photo and method, percent',
    versions: 'What figures were made with',
  },
  columns: {
    item: 'Item',
    record: 'Record',
    treatment: 'Treatment',
    levels: 'Levels',
    notes: 'Notes',
    applications: 'Applications',
    id: 'No.',
    what: 'What',
    products: 'Products and rates',
    planned: 'Planned',
    state: 'State',
    how: 'Equipment',
    day: 'Day',
    by: 'By',
    conditions: 'Conditions',
    otherwise: 'Otherwise than planned',
    plot: 'Plot',
    block: 'Block',
    date: 'Date',
    photo: 'Photo',
    method: 'Method',
    effect: 'Effect on results',
    reason: 'Reason',
    variable: 'Variable',
    photos: 'Photos',
    lookedAt: 'Looked at',
    corrected: 'Corrected',
    changed: 'Ground changed, %',
    class: 'Class',
    meanDifference: 'Mean (95 % interval)',
    limits: 'Limits of agreement (95 %)',
    source: 'Source',
  },
  doneOf: (done: number, total: number) =>
    total === 0 ? 'none' : `${formatCount(done)} of ${formatCount(total)} done`,
  wholeTrial: 'whole trial',
  allDates: 'all dates',
  allVariables: 'all',
  method: METHODS,
  appendixHint:
    'Limits are of the ground in the frame (95 %) and stand only where the method has an error model that was validated; an automatic figure has none.',
  photoHead: (name: string, place: number | null) => (place === null ? name : `${name} (place ${place})`),
  mapCaption:
    'Row 1 is nearest to the person. Plot in small figures, treatment in large ones, blocks by shade.',
  block: (block: number) => `block ${block}`,
  letters:
    'Means with a common letter are not shown to differ (Tukey; a: highest). SE: standard error of the mean. p: against the untreated control (Dunnett).',
  seasonHint: (decides: string | null) =>
    `Means; letters within a date after Tukey.${decides === null ? '' : ` ${decides} decides; other dates are exploratory.`}`,
  othersHint: 'Compared in the same way as the declared variable, without having been declared: exploratory.',
  missing: compareText.means.missing,
  /** A difference with its sign, one decimal. */
  signed: (value: number): string => {
    const words = formatDecimals(value, 1);
    return value > 0 && words !== '0.0' ? `+${words}` : words;
  },
  typical: (day: string) => `Typical plots, ${day}.`,
  typicalHint: (name: string, block: string | null) =>
    `${block === null ? 'Of each treatment the plot nearest its mean' : `Block ${block}, whose plots together lie nearest their treatment means`} ` +
    `of ${name.charAt(0).toLowerCase()}${name.slice(1)}; cut to the frame where there is one.`,
  pictureOf: (plot: string, date: string) => `Plot ${plot} from above, ${formatDay(date, 'short')}`,
  pictureTitle: (treatment: string, name: string | null) =>
    name === null ? `Treatment ${treatment}` : `${treatment} ${name}`,
  pictureValue: (plot: string, value: string) => `plot ${plot}: ${value}`,
  matrix: 'Plots by rating date',
  matrixHint: (name: string) =>
    `Whole photos, one for each plot and date; ${name.charAt(0).toLowerCase()}${name.slice(1)} below.`,
  tooManyPictures: (count: number) =>
    `The table of all plots by date is left out: ${formatCount(count)} photos are too many. Choose fewer rating dates to have it.`,
  whole: (value: number): string => formatDecimals(value, 0),
  moved: (name: string) => `${name.replace(/ \(.*\)$/, '')}, net`,
  movedHint:
    'Means over all photos of the treatment, looked at or not. Net: corrected less automatic cover, percentage points.',
  agreementHint:
    'Bland and Altman. Points have a sampling error of their own, which is part of these differences.',
  trial: {
    name: 'Trial',
    code: 'Code',
    site: 'Site',
    coordinates: 'Coordinates of the site',
    siteNotes: 'Notes on the site',
    turf: 'Turf',
    cultivar: 'Cultivar',
    sownOver: 'Sown over',
    sowing: 'Sown',
    rate: 'Seed rate',
    mowing: 'Mowing',
    soil: 'Soil',
    irrigation: 'Irrigation',
    plotSize: 'Size of a plot',
    rated: 'Rated part of a plot',
    design: 'Design',
    weather: 'Weather',
  },
  metres: (widthMm: number, lengthMm: number) => `${metres(widthMm)} by ${metres(lengthMm)}`,
  mowingHeight: (heightMm: number) => withUsUnits(`${heightMm} mm`, usLength(heightMm)),
  coordinates: (latitude: number, longitude: number) =>
    `${formatNumber(latitude)}°, ${formatNumber(longitude)}°`,
  weather: (days: number, first: string, last: string) =>
    `${formatQuantity(days, 'day', 'days')} recorded, ${formatDay(first, 'short')} to ${formatDay(last, 'short')}`,
  versions: {
    program: 'Swardbook',
    figuresBy: 'Program versions that made the figures',
    database: 'Form of the database',
    code: 'Trial code',
    models: 'Models',
    decoders: 'Photo decoders',
    startModel: (id: string) => `${id} (start model)`,
    taughtModel: (id: string) => `${id} (taught; SHA-256 of its content)`,
  },

  screen: {
    parts: 'Parts of the report',
    part: { report: 'Report', signs: 'Plot signs', files: 'Files' },
    opening: 'Gathering the records…',
    preparing: (done: number, all: number) =>
      `Preparing pictures: ${formatCount(done)} of ${formatCount(all)}`,
    comparing: 'Comparing treatments…',
    choices: 'This copy',
    length: 'Length',
    lengths: { long: 'Full report', short: 'Field day' },
    dates: 'Rating dates',
    names: 'Treatments',
    nameChoices: { names: 'Names', numbers: 'Numbers only' },
    paper: 'Paper',
    papers: { a4: 'A4', letter: 'Letter' },
    photos: 'With photos',
    photosHint: 'Drawn anew and smaller: nothing of place or camera stays in them.',
    print: 'Print or save as PDF',
    saveHtml: 'Save as one HTML file',
    saving: 'Writing the file…',
    saved: (name: string, size: string) =>
      `Saved: ${name} (${size}). It opens in any browser, without a network.`,
    saveFailed: (reason: string) => `The file was not written: ${reason} Nothing else changed; try again.`,
    noPicture: (count: number) =>
      `${formatQuantity(count, 'photo', 'photos')} could not be drawn and ${count === 1 ? 'is' : 'are'} left out.`,
    preview: 'Preview',
    missing: 'Still missing',
    nothingMissing: 'Everything a report has a place for is there.',
    missingItems: {
      plots: ['No plots are laid out.', 'Lay out plots'],
      photos: ['No photo lies on a plot with a figure.', 'Photos and plots'],
      declared: ['No analysis is declared, so nothing is shown by treatment.', 'Declare it'],
      unreadable: ['The newest declaration cannot be read by this version.', 'Look at it'],
      conduct: ['No application is recorded as done.', 'Applications'],
      points: ['No points were counted to check the masks against.', 'Count points'],
      looks: ['No mask is recorded as looked at.', 'Look through'],
    },
    objective: 'Objective',
    objectiveHint: 'What the trial is to find out, in a sentence or two. Kept in the plan.',
    who: 'Your name or initials',
    keepObjective: 'Keep the objective',
    objectiveReason: 'written for the report',
    noTrial: {
      sentence:
        'A report is written from the trial: its plan, photos, figures and the declared comparison. Plan the trial first. To look round, open the sample trial on the start screen.',
      go: 'Plan the trial',
    },
    unreadable: 'The plan cannot be read. The Plan screen says why; no report is made until then.',
    fileName: (code: string, kind: string) => `${code}-${kind}`,
    fileKinds: { long: 'report', short: 'field-day' },
  },

  signs: {
    title: 'Plot signs',
    hint: 'Large numbers to stand at the plots, with the code that labels carry.',
    perPage: 'On a page',
    perPageChoices: { one: 'One', four: 'Four' },
    treatments: 'Treatment',
    treatmentChoices: { none: 'Not shown', number: 'Number', name: 'Name' },
    treatmentHint: 'Whoever scores should not see treatments.',
    sheet: 'Signs',
    plot: 'Plot',
    treatment: (number: number) => `Treatment ${number}`,
    needsPlots: 'There are no plots yet. Lay them out under Plan.',
    qr: (plot: string) => `QR code of plot ${plot}`,
  },
} as const);

const metres = (mm: number) => withUsUnits(`${Number((mm / 1000).toFixed(3))} m`, usLength(mm));

/** What has to be said of a copy before anything else. */
export const copyWords = catalogue(
  'copyWords',
  ({ withNames, dates, datesLeftOut }: TrialReport): string[] => {
    return [
      ...(withNames ? [] : [reportText.copyWithoutNames]),
      ...(datesLeftOut.length > 0
        ? [
            reportText.copyOfDates(
              dates.map(({ ratingDate }) => ratingDate),
              datesLeftOut,
            ),
          ]
        : []),
    ];
  },
);
