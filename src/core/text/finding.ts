import type { Finding, JudgedTreatment } from '../statistics/finding.ts';
import type { ApplicationProgress } from '../trial/applicationsBy.ts';
import { catalogue } from './catalogue.ts';
import { formatDay } from './format.ts';
import { formatP } from './statistics.ts';
import { listed } from './trial.ts';

/** How the values of a finding are said. */
export interface FindingWords {
  /** Name of the variable in a sentence, e.g. "weedy grass". */
  readonly variable: string;
  /** After a value: " %", or empty. */
  readonly unit: string;
  /** After a difference: " points", or empty. */
  readonly differenceUnit: string;
  readonly decimals: number;
}

/** One sentence of a finding, and what it claims. */
export interface FindingSentence {
  readonly kind:
    | 'shown'
    | 'not-shown'
    | 'not-tested'
    | 'means'
    | 'among-treated'
    | 'not-judged'
    | 'applications'
    | 'low-pressure'
    | 'obstacle'
    | 'scope';
  readonly text: string;
  /** Treatments it says something about. */
  readonly treatments: readonly string[];
}

/**
 * A finding in plain sentences, the most important first.
 *
 * A difference is said to be there only where its test shows it. Where none was shown the sentence says what could have been
 * missed; it never says that treatments are alike.
 */
export function findingSentences(finding: Finding, words: FindingWords): FindingSentence[] {
  const { judged, notJudged, lowPressure, obstacle, control } = finding;
  const of = (verdict: JudgedTreatment['verdict']) => judged.filter((own) => own.verdict === verdict);
  const [lower, higher] = [of('lower'), of('higher')];
  const partly = judged.filter(({ applications: { done, total } }) => done < total);
  const names = (list: readonly { readonly treatment: string }[]) => list.map(({ treatment }) => treatment);
  const sentences: (FindingSentence | null)[] = [
    lower.length > 0
      ? { kind: 'shown', text: shownText(finding, lower, 'lower', words), treatments: names(lower) }
      : null,
    higher.length > 0
      ? { kind: 'shown', text: shownText(finding, higher, 'higher', words), treatments: names(higher) }
      : null,
    notShown(finding, of('not-shown'), lower.length + higher.length === 0, words),
    obstacle ? { kind: 'obstacle', text: findingText.obstacles[obstacle], treatments: [] } : null,
    of('not-tested').length > 0 && !obstacle
      ? {
          kind: 'not-tested',
          text: findingText.notTested(names(of('not-tested'))),
          treatments: names(of('not-tested')),
        }
      : null,
    control === null && judged.length > 0 ? meansText(finding, words) : null,
    obstacle && control !== null ? meansText(finding, words) : null,
    ...amongTreated(finding, words),
    lowPressure
      ? {
          kind: 'low-pressure',
          text: findingText.lowPressure(value(lowPressure.mean, words), value(lowPressure.minimum, words)),
          treatments: [],
        }
      : null,
    ...notJudged.map(
      ({ treatment, applications: { total } }): FindingSentence => ({
        kind: 'not-judged',
        text: findingText.notJudged(treatment, total),
        treatments: [treatment],
      }),
    ),
    partly.length > 0
      ? {
          kind: 'applications',
          text: findingText.applications(
            partly.map(({ treatment, applications }) => ({ treatment, ...applications })),
          ),
          treatments: names(partly),
        }
      : null,
    { kind: 'scope', text: findingText.scope, treatments: [] },
  ];
  return sentences.filter((sentence) => sentence !== null);
}

/** So many treatments, or comparisons of one with others, are told one by one. */
const MOST_SPELT = 4;

type Direction = 'lower' | 'higher';

const DIRECTIONS: Readonly<Record<Direction, string>> = { lower: 'lower', higher: 'higher' };

const treatmentsText = (names: readonly string[]) =>
  `${names.length === 1 ? 'treatment' : 'treatments'} ${listed(names)}`;

/** The sentences of a finding and their parts; values come with their units. */
export const findingText = catalogue('findingText', {
  scope: 'One trial, one site and season: not a recommendation.',
  obstacles: {
    'one-treatment': 'Only one treatment has values, so there is nothing to compare it with.',
    'no-error':
      'There is one plot a treatment at most, so the variation between plots is unknown and no difference can be tested.',
    'no-variation':
      'Plots of a treatment do not vary at all, so there is no error to test against and no difference can be tested.',
  } satisfies Readonly<Record<NonNullable<Finding['obstacle']>, string>>,
  notTested: (names: readonly string[]) => `Nothing could be tested for ${treatmentsText(names)}.`,
  lowPressure: (mean: string, minimum: string) =>
    `The pressure was low: the untreated control had ${mean}, below the ${minimum} asked for. There was little to control, so little can be said.`,
  notJudged: (treatment: string, total: number) =>
    `Treatment ${treatment} is not judged: none of its ${total} applications is entered as done by then.`,
  applications: (partly: readonly (ApplicationProgress & { readonly treatment: string })[]) =>
    `Applications done by then: ${listed(partly.map(({ treatment, done, total }) => `${done} of ${total} in ${treatment}`))}.`,

  /** When it was, as a sentence begins. */
  onDate: (day: string) => `On ${formatDay(day)}`,
  overTime: (from: string, to: string) => `Averaged over time from ${formatDay(from)} to ${formatDay(to)}`,
  transformedBack: ' (means transformed back)',

  /**
   * "On 26 July 2027, weedy grass cover in treatment 4 was lower than in the untreated control: 7.2 % against 41.5 %, a
   * difference of 34.4 points (95 % interval 21.8 to 46.9; n = 4 and 4)."
   */
  shownOne: (one: {
    readonly when: string;
    readonly variable: string;
    readonly treatment: string;
    readonly direction: Direction;
    readonly mean: string;
    readonly control: string;
    readonly back: string;
    readonly test: string;
    readonly n: number;
    readonly controlN: number;
  }) =>
    `${one.when}, ${one.variable} in treatment ${one.treatment} was ${DIRECTIONS[one.direction]} than in the untreated control: ` +
    `${one.mean} against ${one.control}${one.back}, ${one.test}; n = ${one.n} and ${one.controlN}).`,
  shownSeveral: (all: {
    readonly when: string;
    readonly variable: string;
    readonly direction: Direction;
    readonly count: number;
    readonly control: string;
    readonly controlN: number;
    readonly back: string;
  }) =>
    `${all.when}, ${all.variable} was ${DIRECTIONS[all.direction]} in ${all.count} treatments than in the untreated control ` +
    `(${all.control}, n = ${all.controlN})${all.back}`,
  oneOfSeveral: (treatment: string, mean: string, test: string, n: number) =>
    `treatment ${treatment} at ${mean}, ${test}; n = ${n})`,
  ends: (most: string, least: string, between: readonly string[]) =>
    `most of all ${most}; least of them ${least}. Between them ${treatmentsText(between)}; the table has their figures.`,
  byTest: (p: string) => `shown by its test (p = ${p}`,
  byInterval: (difference: string, percent: number, low: string, high: string) =>
    `a difference of ${difference} (${percent} % interval ${low} to ${high}`,

  notShownFirst: (when: string, variable: string, control: string, mean: string, n: number, means: string) =>
    `${when}, no difference in ${variable} from the untreated control (treatment ${control}: ${mean}, n = ${n}) was shown for ${means}.`,
  notShownFurther: (means: string) => `No difference from the control was shown for ${means}.`,
  noticeable: (difference: string) =>
    `A true difference smaller than about ${difference} could easily have been missed.`,
  noticeableUnknown: 'How small a difference could have been missed cannot be told.',
  noticeableTransformed: 'How small a difference could have been missed is not given on a transformed scale.',

  means: (when: string, variable: string, means: string) =>
    `${when}, means of ${variable} by treatment were ${means}.`,
  noControl: 'No untreated control takes part, so nothing says how much there was to control.',

  lowerThan: (treatment: string, higher: readonly string[]) =>
    `${treatment} was lower than ${listed(higher)}`,
  amongTreated: (parts: string) => `Among the treated, ${parts} (Tukey).`,
  byPairs: (variable: string, parts: string) => `By pairs, for ${variable} ${parts} (Tukey).`,
  manyPairs: (shown: number, all: number, amongTreated: boolean) =>
    `${amongTreated ? 'Among the treated, ' : ''}${shown} of ${all} pairs are shown to differ (Tukey); letters in the table say which.`,
});

const whenText = ({ at }: Finding): string =>
  at.kind === 'date' ? findingText.onDate(at.ratingDate) : findingText.overTime(at.from, at.to);

function number(amount: number, { decimals }: FindingWords): string {
  // no minus before a zero
  return (amount + 0).toFixed(decimals).replace(/^-(0(\.0*)?)$/, '$1');
}

const value = (amount: number, words: FindingWords) => number(amount, words) + words.unit;
const difference = (amount: number, words: FindingWords) => number(amount, words) + words.differenceUnit;

/** Two significant digits: it is itself an estimate. */
const roughly = (amount: number): string => String(Number(amount.toPrecision(2)));

function shownText(
  finding: Finding,
  shown: readonly JudgedTreatment[],
  direction: Direction,
  words: FindingWords,
): string {
  const control = finding.control!;
  const own = {
    when: whenText(finding),
    variable: words.variable,
    direction,
    control: value(control.mean, words),
    controlN: control.n,
    back: finding.transform === 'none' ? '' : findingText.transformedBack,
  };
  const [only, second] = shown;
  if (only && !second) {
    const { treatment, n } = only;
    const test = testText(finding, only, words);
    return findingText.shownOne({ ...own, treatment, mean: value(only.mean, words), test, n });
  }
  const opening = findingText.shownSeveral({ ...own, count: shown.length });
  const oneText = (one: JudgedTreatment): string =>
    findingText.oneOfSeveral(one.treatment, value(one.mean, words), testText(finding, one, words), one.n);
  if (shown.length <= MOST_SPELT) return `${opening}: ${shown.map(oneText).join('; ')}.`;
  // a wall of figures says nothing: the two ends, and the rest by number
  const byDistance = [...shown].sort(
    (a, b) => Math.abs(b.mean - control.mean) - Math.abs(a.mean - control.mean),
  );
  const [most, least] = [byDistance[0]!, byDistance.at(-1)!];
  const between = shown.filter((one) => one !== most && one !== least).map(({ treatment }) => treatment);
  return `${opening}: ${findingText.ends(oneText(most), oneText(least), between)}`;
}

/** The difference with its interval, the bracket left open; under a transformation the p value. */
function testText({ alpha }: Finding, own: JudgedTreatment, words: FindingWords): string {
  if (own.difference === null || own.low === null || own.high === null) {
    return findingText.byTest(formatP(own.p!));
  }
  const confidence = Number((100 * (1 - alpha)).toPrecision(6));
  const [least, most] = [own.low, own.high].map(Math.abs).sort((a, b) => a - b) as [number, number];
  return findingText.byInterval(
    difference(Math.abs(own.difference), words),
    confidence,
    number(least, words),
    number(most, words),
  );
}

function notShown(
  finding: Finding,
  judged: readonly JudgedTreatment[],
  first: boolean,
  words: FindingWords,
): FindingSentence | null {
  if (judged.length === 0) return null;
  const { noticeable, control, transform } = finding;
  const unknown = transform === 'none' ? findingText.noticeableUnknown : findingText.noticeableTransformed;
  const missed =
    noticeable === null ? unknown : findingText.noticeable(`${roughly(noticeable)}${words.differenceUnit}`);
  const means = listed(judged.map(({ treatment, mean }) => `${treatment} (${value(mean, words)})`));
  const sentence = first
    ? findingText.notShownFirst(
        whenText(finding),
        words.variable,
        control!.treatment,
        value(control!.mean, words),
        control!.n,
        means,
      )
    : findingText.notShownFurther(means);
  return {
    kind: 'not-shown',
    text: `${sentence} ${missed}`,
    treatments: judged.map(({ treatment }) => treatment),
  };
}

/** Without a test against a control: the means as they are. */
function meansText(finding: Finding, words: FindingWords): FindingSentence {
  const { control, judged } = finding;
  const all = [...(control ? [control] : []), ...judged];
  const means = all.map(({ treatment, mean, n }) => `${treatment}: ${value(mean, words)} (n = ${n})`);
  const sentence = findingText.means(whenText(finding), words.variable, listed(means));
  return {
    kind: 'means',
    text: control === null ? `${sentence} ${findingText.noControl}` : sentence,
    treatments: all.map(({ treatment }) => treatment),
  };
}

function amongTreated(
  { amongTreated: pairs, control, judged }: Finding,
  words: FindingWords,
): FindingSentence[] {
  const lower = [...new Set(pairs.map((pair) => pair.lower))];
  const parts = lower.map((name) =>
    findingText.lowerThan(
      name,
      pairs.filter((pair) => pair.lower === name).map((pair) => pair.higher),
    ),
  );
  if (parts.length === 0) return [];
  const treatments = [...new Set(pairs.flatMap((pair) => [pair.lower, pair.higher]))];
  if (parts.length > MOST_SPELT) {
    const all = (judged.length * (judged.length - 1)) / 2;
    const text = findingText.manyPairs(pairs.length, all, control !== null);
    return [{ kind: 'among-treated', text, treatments }];
  }
  const all = parts.join('; ');
  const text = control ? findingText.amongTreated(all) : findingText.byPairs(words.variable, all);
  return [{ kind: 'among-treated', text, treatments }];
}
