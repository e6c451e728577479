import type { Finding, JudgedTreatment } from '../statistics/finding.ts';
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
export const findingSentences = catalogue(
  'findingSentences',
  (finding: Finding, words: FindingWords): FindingSentence[] => {
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
      obstacle ? { kind: 'obstacle', text: OBSTACLES[obstacle], treatments: [] } : null,
      of('not-tested').length > 0 && !obstacle
        ? {
            kind: 'not-tested',
            text: `Nothing could be tested for ${treatmentsText(names(of('not-tested')))}.`,
            treatments: names(of('not-tested')),
          }
        : null,
      control === null && judged.length > 0 ? meansText(finding, words) : null,
      obstacle && control !== null ? meansText(finding, words) : null,
      ...amongTreated(finding, words),
      lowPressure
        ? {
            kind: 'low-pressure',
            text:
              `The pressure was low: the untreated control had ${value(lowPressure.mean, words)}, below the ` +
              `${value(lowPressure.minimum, words)} asked for. There was little to control, so little can be said.`,
            treatments: [],
          }
        : null,
      ...notJudged.map(
        ({ treatment, applications: { total } }): FindingSentence => ({
          kind: 'not-judged',
          text: `Treatment ${treatment} is not judged: none of its ${total} applications is entered as done by then.`,
          treatments: [treatment],
        }),
      ),
      partly.length > 0
        ? {
            kind: 'applications',
            text: `Applications done by then: ${listed(
              partly.map(
                ({ treatment, applications: { done, total } }) => `${done} of ${total} in ${treatment}`,
              ),
            )}.`,
            treatments: names(partly),
          }
        : null,
      { kind: 'scope', text: ONE_TRIAL, treatments: [] },
    ];
    return sentences.filter((sentence) => sentence !== null);
  },
);

/** So many treatments, or comparisons of one with others, are told one by one. */
const MOST_SPELT = 4;

const ONE_TRIAL = 'One trial, one site and season: not a recommendation.';

const OBSTACLES: Readonly<Record<NonNullable<Finding['obstacle']>, string>> = {
  'one-treatment': 'Only one treatment has values, so there is nothing to compare it with.',
  'no-error':
    'There is one plot a treatment at most, so the variation between plots is unknown and no difference can be tested.',
  'no-variation':
    'Plots of a treatment do not vary at all, so there is no error to test against and no difference can be tested.',
};

/** When it was, as a sentence begins. */
function whenText({ at }: Finding): string {
  return at.kind === 'date'
    ? `On ${formatDay(at.ratingDate)}`
    : `Averaged over time from ${formatDay(at.from)} to ${formatDay(at.to)}`;
}

function number(amount: number, { decimals }: FindingWords): string {
  // no minus before a zero
  return (amount + 0).toFixed(decimals).replace(/^-(0(\.0*)?)$/, '$1');
}

const value = (amount: number, words: FindingWords) => number(amount, words) + words.unit;
const difference = (amount: number, words: FindingWords) => number(amount, words) + words.differenceUnit;

/** Two significant digits: it is itself an estimate. */
const roughly = (amount: number): string => String(Number(amount.toPrecision(2)));

const treatmentsText = (names: readonly string[]) =>
  `${names.length === 1 ? 'treatment' : 'treatments'} ${listed(names)}`;

/**
 * One treatment: "On 26 July 2027, weedy grass cover in treatment 4 was lower than in the untreated control: 7.2 % against
 * 41.5 %, a difference of 34.4 points (95 % interval 21.8 to 46.9; 4 and 4 plots)." Several are listed.
 */
function shownText(
  finding: Finding,
  shown: readonly JudgedTreatment[],
  direction: 'lower' | 'higher',
  words: FindingWords,
): string {
  const control = finding.control!;
  const when = whenText(finding);
  const back = finding.transform === 'none' ? '' : ' (means transformed back)';
  const [only, second] = shown;
  if (only && !second) {
    return (
      `${when}, ${words.variable} in treatment ${only.treatment} was ${direction} than in the untreated control: ` +
      `${value(only.mean, words)} against ${value(control.mean, words)}${back}, ` +
      `${testText(finding, only, words)}; n = ${only.n} and ${control.n}).`
    );
  }
  const opening =
    `${when}, ${words.variable} was ${direction} in ${shown.length} treatments than in the untreated control ` +
    `(${value(control.mean, words)}, n = ${control.n})${back}`;
  const oneText = (own: JudgedTreatment): string =>
    `treatment ${own.treatment} at ${value(own.mean, words)}, ${testText(finding, own, words)}; n = ${own.n})`;
  if (shown.length <= MOST_SPELT) return `${opening}: ${shown.map(oneText).join('; ')}.`;
  // a wall of figures says nothing: the two ends, and the rest by number
  const byDistance = [...shown].sort(
    (a, b) => Math.abs(b.mean - control.mean) - Math.abs(a.mean - control.mean),
  );
  const [most, least] = [byDistance[0]!, byDistance.at(-1)!];
  const between = shown.filter((own) => own !== most && own !== least).map(({ treatment }) => treatment);
  return (
    `${opening}: most of all ${oneText(most)}; least of them ${oneText(least)}. ` +
    `Between them ${treatmentsText(between)}; the table has their figures.`
  );
}

/** The difference with its interval, the bracket left open; under a transformation the p value. */
function testText({ alpha }: Finding, own: JudgedTreatment, words: FindingWords): string {
  if (own.difference === null || own.low === null || own.high === null) {
    return `shown by its test (p = ${formatP(own.p!)}`;
  }
  const confidence = Number((100 * (1 - alpha)).toPrecision(6));
  const [least, most] = [own.low, own.high].map(Math.abs).sort((a, b) => a - b) as [number, number];
  return (
    `a difference of ${difference(Math.abs(own.difference), words)} ` +
    `(${confidence} % interval ${number(least, words)} to ${number(most, words)}`
  );
}

function notShown(
  finding: Finding,
  judged: readonly JudgedTreatment[],
  first: boolean,
  words: FindingWords,
): FindingSentence | null {
  if (judged.length === 0) return null;
  const names = judged.map(({ treatment }) => treatment);
  const { noticeable, control } = finding;
  const missed =
    noticeable === null
      ? `How small a difference could have been missed ${finding.transform === 'none' ? 'cannot be told' : 'is not given on a transformed scale'}.`
      : `A true difference smaller than about ${roughly(noticeable)}${words.differenceUnit} could easily have been missed.`;
  const opening = first
    ? `${whenText(finding)}, no difference in ${words.variable} from the untreated control ` +
      `(treatment ${control!.treatment}: ${value(control!.mean, words)}, n = ${control!.n}) was shown for `
    : 'No difference from the control was shown for ';
  const means = judged.map(({ treatment, mean }) => `${treatment} (${value(mean, words)})`);
  return { kind: 'not-shown', text: `${opening}${listed(means)}. ${missed}`, treatments: names };
}

/** Without a test against a control: the means as they are. */
function meansText(finding: Finding, words: FindingWords): FindingSentence {
  const { control, judged } = finding;
  const all = [...(control ? [control] : []), ...judged];
  const means = all.map(({ treatment, mean, n }) => `${treatment}: ${value(mean, words)} (n = ${n})`);
  const none =
    control === null
      ? ' No untreated control takes part, so nothing says how much there was to control.'
      : '';
  return {
    kind: 'means',
    text: `${whenText(finding)}, means of ${words.variable} by treatment were ${listed(means)}.${none}`,
    treatments: all.map(({ treatment }) => treatment),
  };
}

function amongTreated(
  { amongTreated: pairs, control, judged }: Finding,
  words: FindingWords,
): FindingSentence[] {
  const lower = [...new Set(pairs.map((pair) => pair.lower))];
  const parts = lower.map((name) => {
    const higher = pairs.filter((pair) => pair.lower === name).map((pair) => pair.higher);
    return `${name} was lower than ${listed(higher)}`;
  });
  if (parts.length === 0) return [];
  const treatments = [...new Set(pairs.flatMap((pair) => [pair.lower, pair.higher]))];
  if (parts.length > MOST_SPELT) {
    const all = (judged.length * (judged.length - 1)) / 2;
    const text = `${control ? 'Among the treated, ' : ''}${pairs.length} of ${all} pairs are shown to differ (Tukey); letters in the table say which.`;
    return [{ kind: 'among-treated', text, treatments }];
  }
  const opening = control ? 'Among the treated, ' : `By pairs, for ${words.variable} `;
  return [{ kind: 'among-treated', text: `${opening}${parts.join('; ')} (Tukey).`, treatments }];
}
