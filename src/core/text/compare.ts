import type { CoverMethod } from '../exchange/coverTable.ts';
import {
  type ComparedVariable,
  classesOf,
  type DeclarationDrift,
  type DeclaredAnalysis,
} from '../statistics/declaredAnalysis.ts';
import type { Transform } from '../statistics/transforms.ts';
import type { ApplicationProgress } from '../trial/applicationsBy.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { RatedVariable } from '../trial/rating.ts';
import type { GapRule } from '../trial/trial.ts';
import { catalogue } from './catalogue.ts';
import type { FindingWords } from './finding.ts';
import { formatDay, formatQuantity } from './format.ts';
import { listed } from './trial.ts';

/** How a variable is called and its values written. */
export interface VariableWords extends FindingWords {
  /** For headings: "Weedy grass cover". */
  readonly name: string;
  /** "%", "1-9" or empty. */
  readonly scale: string;
}

/** How variables are named. */
export const variableNames = catalogue('variableNames', {
  colour: 'Dark green colour index',
  /** @param plain the class without its explanation, or the id of a reporting group with spaces */
  cover: (plain: string) => `${plain.charAt(0).toUpperCase()}${plain.slice(1)} cover`,
  /** A reporting group by its id, where it has a name. */
  groups: {} as Readonly<Record<string, string>>,
  inSentence: (name: string) => name.charAt(0).toLowerCase() + name.slice(1),
  points: ' points',
});

/** Names and units of a variable. */
export function variableWords(
  variable: ComparedVariable,
  classes: readonly CoverClass[],
  ratedVariables: readonly RatedVariable[],
): VariableWords {
  const { cover, groups, inSentence, points } = variableNames;
  if (variable.kind === 'colour') {
    const name = variableNames.colour;
    return { name, variable: inSentence(name), scale: '', unit: '', differenceUnit: '', decimals: 3 };
  }
  if (variable.kind === 'rated') {
    const rated = ratedVariables.find(({ id }) => id === variable.variableId);
    const name = rated?.name ?? variable.variableId;
    const scale = rated?.unit ?? '';
    const percent = scale === '%';
    const decimals = rated && rated.most - rated.least > 20 ? 1 : 2;
    return {
      name,
      variable: inSentence(name),
      scale,
      unit: percent ? ' %' : '',
      differenceUnit: percent ? points : '',
      decimals,
    };
  }
  const own = classesOf(variable, classes);
  const plain =
    variable.kind === 'group'
      ? (groups[variable.reportingGroup] ?? variable.reportingGroup.replaceAll('-', ' '))
      : (own[0]?.name ?? variable.classId).replace(/ \(.*\)$/, '');
  const name = cover(plain);
  return { name, variable: inSentence(name), scale: '%', unit: ' %', differenceUnit: points, decimals: 1 };
}

/** Ways a figure is made, as a choice. */
export const methodText: Readonly<Record<CoverMethod, string>> = catalogue('methodText', {
  automatic: 'measured by the model',
  corrected: 'measured and corrected by hand',
  points: 'counted at points',
  adjusted: 'adjusted for the mask’s errors',
  visual: 'rated by eye',
});

export const transformText: Readonly<Record<Transform, string>> = catalogue('transformText', {
  none: 'none',
  'arcsine-square-root': 'arcsine square root',
  log: 'log10(x + 1)',
});

const DRIFTS: Readonly<Record<DeclarationDrift, string>> = {
  classes: 'the classes',
  'gap-rule': 'the rule for small gaps',
  exclusions: 'the exclusions',
  'variable-gone': 'the primary variable, which the plan no longer has',
};

const gapText = (rule: GapRule): string =>
  rule.kind === 'every-pixel'
    ? 'every pixel counts'
    : `bare patches smaller than ${rule.smallerThanMm} mm count as what surrounds them`;

/** What the Compare screen says. */
export const compareText = catalogue('compareText', {
  title: 'Compare',
  parts: 'Parts of the comparison',
  part: {
    result: 'Result',
    season: 'Over dates',
    pictures: 'Pictures',
    turf: 'Turf',
    programme: 'Programme',
    checks: 'Checks',
    declared: 'Declared',
  },
  opening: 'Opening the comparison…',
  failed: (reason: string) => `The comparison stopped: ${reason} Open the screen again; nothing is lost.`,
  working: 'Comparing…',
  none: '–',
  cancel: 'Cancel',

  noTrial: {
    title: 'Nothing to compare yet',
    sentence:
      'A comparison needs a trial: plots with their treatments. Plan it, and photos and scores find their plots. To look round first, open the sample trial on the start screen.',
    go: 'Plan the trial',
  },
  unreadable: 'The plan cannot be read. The Plan screen says why; nothing is compared until then.',
  noPlots: {
    sentence: 'The plan has no plots yet. With a layout, photos and scores can be compared by treatment.',
    go: 'Lay out plots',
  },
  noValues: {
    sentence: (what: string, how: string | null) =>
      `No plot has a value of ${what} yet${how === null ? '' : ` (figures ${how})`}. Photos that are measured and lie on a plot with a rating date appear here by themselves.`,
    photos: 'Photos and plots',
    scores: 'Scores',
  },

  declare: {
    title: 'Declare first',
    sentence:
      'What will decide is fixed before treatments show: whoever has seen results can no longer choose freely. Until then treatments stand under codes, and nothing is shown by treatment. Later changes are amendments with a reason; nothing is overwritten.',
    there: 'What is there',
    thereSentence: 'Plots with a value, by code and rating date. Codes are shuffled.',
    code: 'Code',
    plots: (there: number, all: number) => `${there} of ${all}`,
    variable: 'Primary variable',
    method: 'Figures',
    when: 'What decides',
    area: 'Area under the curve, all dates',
    transform: 'Transformation',
    alpha: 'Level of significance',
    threshold: 'Control counts as lost above',
    thresholdHint: 'Leave empty if length of control is not asked for.',
    pressure: 'Least mean of the untreated control',
    pressureHint: 'Below it there is too little to control; the finding then says so.',
    who: 'Your name or initials',
    reason: 'Reason for the amendment',
    whoHint: 'Kept with the declaration. A typed name says who signed, not who sat at the screen.',
    go: 'Declare the analysis',
    amend: 'Amend the declaration',
    keep: 'Keep the amendment',
    notKept:
      'It was not kept: somebody else declared meanwhile. Look at the newest declaration and try again.',
    allPlots: 'Every plot with a figure has one of this kind.',
    missing: (plots: readonly string[], day: string, instead: readonly CoverMethod[]) =>
      `On ${formatDay(day, 'short')} ${formatQuantity(plots.length, 'plot has', 'plots have')} no such figure: ${listed(plots)}. They would be missing plots.` +
      (instead.length > 0 ? ` All plots have figures ${listed(instead.map((one) => methodText[one]))}.` : ''),
    fromPlan: 'Fixed with it, from the plan',
    experiment: 'Change them in the plan before declaring.',
    number: (field: string, met: string, allowed: string) => `${field} is "${met}"; allowed: ${allowed}.`,
    alphaAllowed: 'a number above 0 and below 1, e.g. 0.05',
    numberAllowed: 'a number, e.g. 10, or nothing',
    pressureAllowed: 'a number, 0 or more',
  },

  declared: {
    title: 'Declared analysis',
    by: (who: string, when: string) => `Declared by ${who}, ${when}.`,
    amendedBy: (who: string, when: string, reason: string) => `Amended by ${who}, ${when}: ${reason}`,
    history: 'Earlier declarations',
    unreadable:
      'The newest declaration was written by a newer version of this program and cannot be read here. Update the program, or amend the declaration.',
    drift: (drifts: readonly DeclarationDrift[]) =>
      `The plan has changed since the declaration: ${listed(drifts.map((one) => DRIFTS[one]))}. The comparison stays as declared until it is amended.`,
    lines: (declared: DeclaredAnalysis, words: VariableWords): readonly (readonly [string, string])[] => [
      ['Primary variable', words.name],
      ['Figures', declared.method === null ? 'scores' : methodText[declared.method]],
      [
        'What decides',
        declared.when.kind === 'area'
          ? 'area under the curve, all dates'
          : formatDay(declared.when.ratingDate),
      ],
      ['Transformation', transformText[declared.transform]],
      ['Level of significance', String(declared.alpha)],
      [
        'Control counts as lost above',
        declared.controlThreshold === null
          ? 'not asked for'
          : `${String(declared.controlThreshold)}${words.unit}`,
      ],
      ['Least mean of the control', `${String(declared.minimumPressure)}${words.unit}`],
      ['Classes', declared.classes.map(({ name }) => name).join('; ')],
      ['Small gaps', gapText(declared.gapRule)],
      [
        'Exclusions',
        declared.exclusions.length === 0
          ? 'none'
          : declared.exclusions
              .map(
                ({ plot, ratingDate, variable, reason }) =>
                  `plot ${plot}${ratingDate === null ? '' : `, ${formatDay(ratingDate, 'short')}`}${variable === null ? '' : `, ${variable}`}: ${reason}`,
              )
              .join('; '),
      ],
    ],
  },

  shown: {
    variable: 'Variable',
    date: 'Rating date',
    declaredMark: (name: string) => `${name} (declared)`,
    decides: (day: string) => `${day} (decides)`,
    exploratory: 'Exploratory: not what was declared to decide.',
  },

  finding: {
    title: 'Finding',
    confidence: (percent: string) =>
      `Intervals of differences from the control hold together at ${percent} % (Dunnett).`,
    pending: 'The declared comparison is being worked out…',
    notRated: (day: string) =>
      `Nothing was rated on ${formatDay(day)}, the date declared to decide, so there is no finding yet.`,
    areaNeedsDates:
      'The area under the curve decides; it needs plots rated on two dates or more, so there is no finding yet.',
  },

  means: {
    title: (name: string, day: string) => `${name}, ${formatDay(day)}`,
    overDates: (name: string, from: string, to: string) =>
      `${name}, mean over time from ${formatDay(from)} to ${formatDay(to)}`,
    treatment: 'Treatment',
    applications: 'Applications',
    done: ({ done, total }: ApplicationProgress) => (total === 0 ? 'none' : `${done} of ${total}`),
    toCome: 'still to come, not judged',
    n: 'n',
    mean: (unit: string) => (unit ? `Mean, ${unit}` : 'Mean'),
    standardError: 'SE',
    limits: (percent: string) => `${percent} % limits`,
    tukey: 'Tukey',
    lsd: 'LSD',
    difference: 'Against control',
    dunnett: 'p (Dunnett)',
    control: 'untreated control',
    percentControl: '% control',
    between: (low: string, high: string) => `${low} to ${high}`,
    letters: 'Means with a common letter are not shown to differ (a: highest).',
    adjacent: (n: number, mean: string) =>
      `The untreated control beside the trial (${formatQuantity(n, 'plot', 'plots')}, mean ${mean}) lies outside the randomisation and takes no part in the analysis.`,
    errors: (values: { cv: string; sed: string; lsd: string; hsd: string; alpha: string; df: number }) =>
      `CV ${values.cv}. Standard error of a difference ${values.sed}. LSD ${values.lsd}, HSD ${values.hsd} at ${values.alpha}; ${values.df} error degrees of freedom.`,
    anova: 'Analysis of variance',
    notes: (count: number) => formatQuantity(count, 'note', 'notes'),
    missing: (plots: readonly string[]) =>
      `${formatQuantity(plots.length, 'plot', 'plots')} without a value: ${listed(plots)}.`,
    scroll: (title: string) => `Table: ${title}`,
    save: 'Save the comparison (JSON)',
  },

  anova: {
    source: 'Source',
    df: 'df',
    sumOfSquares: 'Sum of squares',
    meanSquare: 'Mean square',
    f: 'F',
    p: 'p',
    sources: {
      block: 'block',
      row: 'row',
      column: 'column',
      treatment: 'treatment',
      residual: 'residual',
    } as Readonly<Record<string, string>>,
    between: 'Between plots',
    within: 'Within plots, over dates',
    mixed: 'Mixed model, plots random',
    denominatorDf: 'error df',
  },

  season: {
    one: 'One rating date: there is nothing to compare over dates yet.',
    pending: 'Dates are being compared…',
    area: 'Mean over time',
    tests: 'Tests over dates',
    length: 'Length of control',
    lengthSentence: (threshold: string, from: string) =>
      `Days from sowing (${formatDay(from)}) until the treatment mean passed ${threshold}. Between two ratings nobody looked, so it is a bracket.`,
    noLength: 'The declaration asks for no length of control.',
    noSowing: 'The plan has no sowing date to count from.',
    held: 'At or below until',
    passed: 'Above on',
    days: 'Days',
    atLeast: (days: number) => `${days} or more`,
    atMost: (days: number) => `${days} or fewer`,
    between: (from: number, to: number) => `${from} to ${to}`,
    lines: 'Each plot over time',
    overTime: (name: string) => `${name} over time`,
  },

  bars: (name: string, day: string) => `${name} by treatment, ${formatDay(day, 'short')}`,

  pictures: {
    pair: 'Untreated beside treated',
    treated: 'Treated',
    nearest: (control: string, treated: string, block: string | null) =>
      `Picked by rule: the ${block === null ? 'plots' : 'block whose two plots'} nearest their treatment means (${control} and ${treated}).`,
    noPair: 'No block has both an untreated and this treated plot on this date.',
    noControl: 'The plan has no untreated control in the trial to set beside.',
    lost: 'The browser no longer holds one of the two photos, so they cannot be shown side by side.',
    map: (name: string, day: string) => `${name} on the ground, ${formatDay(day, 'short')}`,
    matrix: 'Plots by date',
    show: 'Show',
    photo: 'Photos',
    mask: 'Masks',
    noPhotos: 'No photo lies on a plot yet.',
    noPicture: 'no picture',
    several: (count: number) => `1 of ${count}`,
  },

  turf: {
    title: 'The turf itself',
    sentence:
      'What a programme does to the turf: its cover, bare ground, what was rated by eye, and its colour. All exploratory unless declared; each is compared with the untreated control on this date.',
    higher: 'higher',
    lower: 'lower',
    notShown: 'not shown',
    against: (word: string, p: string) => `${word}, p ${p}`,
    colour:
      'Dark green colour index of the pixels measured as turf (mean colour, after Karcher and Richardson 2003). It depends on light and camera, so treatments are compared with the control within one date only.',
    colourAcross: (balanced: number, all: number) =>
      all > 0 && balanced === all
        ? 'A grey card balanced every photo: dates may be set beside each other with care, on one phone.'
        : `Dates or phones are not compared: ${balanced} of ${formatQuantity(all, 'photo', 'photos')} have a grey card, and colours of one date are balanced all or none.`,
    noColour:
      'No colour was measured yet. Photos measured before colour was kept have none until they are measured again.',
    withoutRatings: 'Injury and quality rated by eye join here once the plan has such a variable and scores.',
    scores: 'Scores',
  },

  programme: {
    title: 'Programmes',
    applications: 'Applications',
    modes: 'Modes of action',
    cost: 'Cost per hectare',
    result: (name: string) => name,
    withoutCost: (names: readonly string[]) => `without the cost of ${listed(names)}`,
    currency: 'trial’s currency',
    chart: (name: string) => `Cost against ${variableNames.inSentence(name)}`,
    noCost: 'No product has a cost in the plan, so there is nothing to draw cost against.',
    plan: 'Applications in the plan',
    experimental: 'experimental',
    unknownModes: 'not entered',
  },

  checks: {
    residuals: 'Residuals',
    fitted: 'Residuals against fitted means',
    quantiles: 'Normal quantiles of residuals',
    noResiduals: 'There are no error degrees of freedom, so nothing is left to look at.',
    scale: (name: string, transform: Transform) =>
      transform === 'none' ? name : `${name}, ${transformText[transform]}`,
    sensitivity: 'With and without exclusions',
    noExclusions: 'Nothing was excluded: the comparison holds all plots that have a value.',
    asDeclared: 'As declared',
    all: 'All plots',
    change: (count: number) =>
      count === 0
        ? 'Letters are the same with all plots.'
        : `With all plots the letters of ${formatQuantity(count, 'treatment', 'treatments')} change.`,
    data: 'Values',
    withoutPlot: (count: number) =>
      `${formatQuantity(count, 'photo or score lies', 'photos or scores lie')} on no plot of the plan, or ${count === 1 ? 'has' : 'have'} no date.`,
    withoutMethod: (count: number, method: CoverMethod) =>
      `${formatQuantity(count, 'photo has', 'photos have')} no figure ${methodText[method]}.`,
    complete: 'Every photo with a figure lies on a plot and has a figure of the declared kind.',
    tests: {
      normal: (w: string, p: string) => `Normal residuals: Shapiro-Wilk W ${w}, p ${p}.`,
      equal: (p: string) => `Equal variances: Brown-Forsythe p ${p}.`,
      largest: (plot: string, size: string, p: string) =>
        `Largest residual: plot ${plot}, ${size} standard deviations, p ${p}.`,
      additive: (p: string) => `Blocks and treatments add: Tukey’s test p ${p}.`,
    },
  },
});
