import type { CorrectionFacts } from '../report/correctionFacts.ts';
import type { Counted, FrameBy, MeasuringFacts, UsedModel } from '../report/measuringFacts.ts';
import type { PointFacts } from '../report/pointFacts.ts';
import type { ReportDeclared, TrialReport } from '../report/trialReport.ts';
import type { LayoutDesign } from '../trial/layout.ts';
import { catalogue } from './catalogue.ts';

import { compareText, methodText } from './compare.ts';
import { formatCount, formatDay, formatDecimals, formatPercent, formatQuantity } from './format.ts';
import { gapRuleText } from './gapRule.ts';
import { lopsidedWarningText } from './mask.ts';
import { NOT_RECORDED, reportText } from './report.ts';
import { listed } from './trial.ts';

/** A part of the methods. */
export interface MethodsParagraph {
  readonly title: string;
  readonly sentences: readonly string[];
}

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');
const day = (date: string) => formatDay(date, 'short');

/** The methods, from what was done: each sentence says what the records show, and unknown is called so. */
export const methodsParagraphs = catalogue('methodsParagraphs', (report: TrialReport): MethodsParagraph[] => {
  const { measuring, corrections, points } = report;
  return [
    { title: 'Layout', sentences: layoutSentences(report) },
    { title: 'Photographs', sentences: photoSentences(report) },
    ...(measuring
      ? [
          { title: 'Cover', sentences: coverSentences(report, measuring) },
          { title: 'Corrections by hand', sentences: correctionSentences(corrections, report) },
          { title: 'Check against points', sentences: pointSentences(points, report) },
        ]
      : []),
    ...(report.scored.length > 0 ? [{ title: 'Scores', sentences: scoreSentences(report) }] : []),
    { title: 'Comparison', sentences: comparisonSentences(report) },
  ].filter(({ sentences }) => sentences.length > 0);
});

const DESIGNS: Readonly<Record<LayoutDesign, string>> = {
  'randomized-complete-block': 'randomized complete blocks',
  'completely-randomized': 'completely randomized',
  'latin-square': 'Latin square',
  own: 'a layout of its own',
};

/** The design in words; null where it is not recorded. */
export const designWords = catalogue(
  'designWords',
  ({ layout }: Pick<TrialReport, 'layout'>): string | null => layout && DESIGNS[layout.design],
);

function layoutSentences({ plots, layout, treatments, framePlan }: TrialReport): string[] {
  if (plots.length === 0) return [reportText.noPlots];
  const blocks = new Set(plots.flatMap(({ block }) => block ?? []));
  const design = designWords({ layout });
  const included = treatments.find(({ untreatedControl }) => untreatedControl === 'included');
  const beside = treatments.find(({ untreatedControl }) => untreatedControl === 'adjacent');
  return [
    `${formatQuantity(treatments.length, 'treatment', 'treatments')} on ${formatQuantity(plots.length, 'plot', 'plots')}` +
      `${blocks.size > 0 ? ` in ${formatQuantity(blocks.size, 'block', 'blocks')}` : ''}; ` +
      `${design === null ? `the design is ${NOT_RECORDED}` : `design: ${design}`}.`,
    layout && layout.seed !== null
      ? `The layout was drawn with seed ${layout.seed}${
          layout.swaps.length > 0
            ? `; afterwards ${formatQuantity(layout.swaps.length, 'pair of plots was', 'pairs of plots were')} swapped by hand`
            : ''
        }.`
      : `How treatments came to their plots is ${NOT_RECORDED}.`,
    ...(included
      ? [`Treatment ${included.number} is the untreated control, randomised with the others.`]
      : []),
    ...(beside
      ? [
          `Treatment ${beside.number} is an untreated control beside the treated plots; it takes no part in the analysis of variance.`,
        ]
      : []),
    ...(included || beside ? [] : ['No treatment is marked as untreated control.']),
    ...(framePlan
      ? [
          `By the plan the frame lay at ${formatQuantity(framePlan.placesPerPlot, 'place', 'places')} in each plot, ` +
            `${framePlan.draw === 'fixed' ? 'the same on every date' : 'drawn anew for each date'}.`,
        ]
      : []),
  ];
}

function photoSentences({ measuring, dates, plots }: TrialReport): string[] {
  if (!measuring) return ['No photo was measured.'];
  const withPhotos = dates.filter((date) => date.photos > 0);
  const byDate = withPhotos.map(
    ({ ratingDate, photos: count }) => `${day(ratingDate)} (${formatCount(count)})`,
  );
  const gaps = withPhotos.filter(({ photographedPlots }) => photographedPlots < plots.length);
  return [
    `${photos(measuring.photos)} taken from above ${measuring.photos === 1 ? 'was' : 'were'} measured: ${byDate.join(', ')}.`,
    ...gaps.map(
      ({ ratingDate, photographedPlots }) =>
        `On ${day(ratingDate)}, ${formatCount(photographedPlots)} of ${formatQuantity(plots.length, 'plot', 'plots')} had a measured photo.`,
    ),
    ...(measuring.unmeasured > 0
      ? [
          `${photos(measuring.unmeasured)} of the plots ${measuring.unmeasured === 1 ? 'has' : 'have'} no figure.`,
        ]
      : []),
    deviceSentence(measuring.devices),
    ...frameSentences(measuring),
    ...(measuring.millimetresPerPixel ? [scaleSentence(measuring.millimetresPerPixel)] : []),
    measuring.balanced > 0
      ? `Colours were balanced by a grey area in ${photos(measuring.balanced)}.`
      : 'No grey card was used to balance colours.',
  ];
}

function deviceSentence(devices: readonly Counted<string | null>[]): string {
  const known = devices.filter(({ value }) => value !== null);
  const unknown = devices.find(({ value }) => value === null)?.photos ?? 0;
  if (known.length === 0) return `The camera is ${NOT_RECORDED}.`;
  const named = known.map(({ value, photos: count }) =>
    known.length + Math.sign(unknown) > 1 ? `${value} (${photos(count)})` : String(value),
  );
  const rest = unknown > 0 ? `; ${NOT_RECORDED} for ${photos(unknown)}` : '';
  return `Camera: ${listed(named)}${rest}.`;
}

const FRAME_BY: Readonly<Record<FrameBy, string>> = {
  person: 'marked by hand',
  'finder-confirmed': 'found by the program and confirmed by a person',
  finder: 'found by the program and not confirmed',
  file: 'read from a file',
};

function frameSentences({ frames, framesBy }: MeasuringFacts): string[] {
  const parts = frames.map(({ value, photos: count }) => {
    if (value === null) return `the whole photo on ${formatCount(count)}`;
    if (value === 'unknown-size') return `the inside of a frame of unknown size on ${formatCount(count)}`;
    const [width, length] = value;
    return `the inside of a frame of ${width} mm by ${length} mm on ${formatCount(count)}`;
  });
  const by = framesBy.map(
    ({ value, photos: count }) =>
      `${value === null ? `set in a way that is ${NOT_RECORDED}` : FRAME_BY[value]} on ${formatCount(count)}`,
  );
  return [
    `What was measured: ${listed(parts)} of the photos.`,
    ...(by.length > 0 ? [`Frames were ${listed(by)} of the photos.`] : []),
  ];
}

function scaleSentence([least, most]: readonly [number, number]): string {
  const [low, high] = [formatDecimals(least, 2), formatDecimals(most, 2)];
  return `A pixel shows ${low === high ? low : `${low} to ${high}`} mm of ground.`;
}

function coverSentences({ trial }: TrialReport, measuring: MeasuringFacts): string[] {
  const { gapRules, models, doubted, photos: measured } = measuring;
  return [
    'Cover is what is seen first from above, as a share of the ground measured; a leaf counts to its plant whatever its colour.',
    `Classes: ${trial.classes.map(({ name }) => name).join('; ')}.`,
    ...gapRules.map(({ value, photos: count }) =>
      count === measured ? gapRuleText(value) : `In ${photos(count)}: ${gapRuleText(value)}`,
    ),
    ...models.flatMap(modelSentences),
    doubted > 0
      ? `The program doubted ${formatCount(doubted)} of ${formatQuantity(measured, 'automatic figure', 'automatic figures')}.`
      : 'The program doubted none of the automatic figures.',
    'No interval is given for an automatic figure: no error model of it has been validated.',
  ];
}

function modelSentences({ taught, photos: count, ratingDates }: UsedModel): string[] {
  const of = ratingDates.length === 0 ? '' : ` of ${listed(ratingDates.map(day))}`;
  if (taught === null) {
    return [`The start model, which adapts to each photo and is not taught, measured ${photos(count)}${of}.`];
  }
  if (taught === 'not-recorded') {
    return [`A taught model measured ${photos(count)}${of}; what it was taught on is ${NOT_RECORDED}.`];
  }
  const { agreement } = taught;
  return [
    `A model taught by strokes on ${photos(taught.photos)} measured ${photos(count)}${of}.`,
    agreement === null
      ? `How it agreed with strokes held back from it is ${NOT_RECORDED}.`
      : `${formatPercent(agreement.share)} % of ${formatCount(agreement.cells)} painted places were called as painted, each stroke ` +
        'judged by the others; this is agreement with the strokes, not accuracy of cover.',
  ];
}

function correctionSentences(facts: CorrectionFacts | null, { trial }: TrialReport): string[] {
  if (!facts) return [];
  const { masks, lookedAt, corrected, meanChangedFraction, warnings, signOffs, byTreatment } = facts;
  const named = byTreatment.map((own) => ({ ...own, treatment: `treatment ${own.treatment}` }));
  return [
    lookedAt === 0
      ? 'No mask is recorded as looked at by a person.'
      : `A person looked at ${formatCount(lookedAt)} of ${formatQuantity(masks, 'mask', 'masks')}.`,
    corrected === 0
      ? 'None was corrected by hand.'
      : `${formatCount(corrected)} ${corrected === 1 ? 'was' : 'were'} corrected by hand, which changed the class of ` +
        `${formatPercent(meanChangedFraction)} % of the ground on the mean of all ${formatCount(masks)}.`,
    ...(named.length > 0
      ? warnings.map((warning) =>
          lopsidedWarningText(
            warning,
            trial.classes.map(({ name }) => name),
          ),
        )
      : []),
    ...signOffs.map(
      ({ ratingDate, by, at, reason }) =>
        `${day(ratingDate)} was signed off by ${by} on ${day(at.slice(0, 10))}${reason === null ? '' : ` (amended: ${reason})`}.`,
    ),
  ];
}

function pointSentences(facts: PointFacts | null, { adjustedPhotos }: TrialReport): string[] {
  const adjusted =
    adjustedPhotos > 0
      ? `${photos(adjustedPhotos)} ${adjustedPhotos === 1 ? 'has a figure' : 'have figures'} adjusted for the errors of the mask found at the points.`
      : 'No figure was adjusted for errors of the mask.';
  if (!facts) {
    return [
      'No points were counted, so nothing independent of the masks says how far the figures are from the truth.',
      adjusted,
    ];
  }
  const { observer, otherObservers, points, indeterminate, agreement, withStrokes, ofOtherClasses } = facts;
  return [
    `${observer} called ${formatQuantity(points, 'point', 'points')} on ${photos(facts.photos)} of ${listed(facts.ratingDates.map(day))}` +
      `${indeterminate > 0 ? `, and could not tell at ${formatCount(indeterminate)} more` : ''}.`,
    ...(otherObservers.length > 0
      ? [`${listed(otherObservers)} called points too; their calls are not in these numbers.`]
      : []),
    ...(ofOtherClasses > 0
      ? [
          `${formatQuantity(ofOtherClasses, 'call', 'calls')} of classes that the trial no longer has are left out.`,
        ]
      : []),
    ...(withStrokes > 0
      ? [
          `${photos(withStrokes)} with strokes of a model ${withStrokes === 1 ? 'is' : 'are'} left out of the agreement.`,
        ]
      : []),
    agreement
      ? `At ${formatPercent(agreement.sameFraction)} % of ${formatQuantity(agreement.points, 'point', 'points')} on ${photos(agreement.photos)} the automatic mask says what was called.`
      : 'No photo with points can be held against its mask.',
    adjusted,
  ];
}

function scoreSentences({ scored }: TrialReport): string[] {
  return scored.map(
    ({ name, unit, scores, raters, ratingDates }) =>
      `${name} (${unit}): ${formatQuantity(scores, 'score', 'scores')} on ${listed(ratingDates.map(day))}, ` +
      `${raters.length > 0 ? `by ${listed(raters)}` : `rater ${NOT_RECORDED}`}.`,
  );
}

const ANALYSES: Readonly<Record<string, string>> = {
  'randomized-complete-block': 'randomized complete blocks',
  'completely-randomized': 'a completely randomized design',
  'latin-square': 'a Latin square',
};

function comparisonSentences({ declared, results }: TrialReport): string[] {
  if (!declared) return [reportText.notDeclared];
  const { analysis, drift } = declared;
  const [own] = results.filter(({ isDeclared }) => isDeclared);
  const first = own?.dates[0]?.comparison.analysis;
  return [
    ...declaredSentences(declared),
    ...(drift.length > 0 ? [compareText.declared.drift(drift)] : []),
    ...(first
      ? [
          `Photos and frames of a plot on a date are averaged; plots are compared by analysis of variance for ${ANALYSES[first.design] ?? first.design}` +
            `${analysis.method === null ? '' : `, from figures ${methodText[analysis.method]}`}.`,
          `Groups of means after Tukey, differences from the untreated control after Dunnett, at ${analysis.alpha}.`,
        ]
      : []),
  ];
}

function declaredSentences({ first, amendments }: ReportDeclared): string[] {
  return [
    `The analysis was declared by ${first.by} on ${day(first.at.slice(0, 10))}. The program compares no treatments before that.`,
    ...amendments.map(
      ({ by, at, reason }) =>
        `It was amended by ${by} on ${day(at.slice(0, 10))}: ${reason ?? `reason ${NOT_RECORDED}`}.`,
    ),
  ];
}
