import type { AnovaRow } from '../core/statistics/analysisOfVariance.ts';
import type { ClassOverDates, Comparison, DateComparison } from '../core/statistics/compareTrial.ts';
import type { LengthOfControlTable } from '../core/statistics/lengthOfControl.ts';
import type { Note } from '../core/statistics/note.ts';
import type { OverDatesAnalysis } from '../core/statistics/overDates.ts';
import type { PercentControlTable } from '../core/statistics/percentControlTable.ts';
import type { TreatmentAnalysis } from '../core/statistics/treatmentAnalysis.ts';
import { formatP, formatSignificant, noteText } from '../core/text/statistics.ts';
import { RESULTS_CAUTION, comparisonWords as words } from '../core/text/statisticsCommands.ts';
import { type TextColumn, textTable } from './textTable.ts';

/** What stands at the head of a comparison. */
export interface ComparisonHead {
  readonly variable: string;
  readonly unit: string | null;
  readonly notes: readonly Note[];
}

/** A comparison as plain text for the terminal. */
export function comparisonTable(comparison: Comparison, head: ComparisonHead): string {
  const sections = [
    notesText([...head.notes, ...comparison.notes]),
    ...comparison.analyses.map((date) => dateSection(date, head)),
    ...comparison.overDates.flatMap((own) => overDatesSections(own, head)),
    wrapped(RESULTS_CAUTION, ''),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

const left = (title: string): TextColumn => ({ title, align: 'left' });
const right = (title: string): TextColumn => ({ title, align: 'right' });
const shown = (value: number | null | undefined): string =>
  value === null || value === undefined ? words.none : formatSignificant(value);
const shownP = (p: number | null | undefined): string => (p === null || p === undefined ? '' : formatP(p));

/** Two decimals for percentages and scores, more for small values, the same down a column. */
function fixed(value: number | null | undefined, decimals = 2): string {
  return value === null || value === undefined ? words.none : value.toFixed(decimals);
}

function decimalsFor(values: readonly (number | null)[]): number {
  const largest = Math.max(0, ...values.map((value) => Math.abs(value ?? 0)));
  if (largest >= 1 || largest === 0) return 2;
  return Math.min(8, 2 - Math.floor(Math.log10(largest)));
}

function between(low: number | null, high: number | null, decimals = 2): string {
  return low === null || high === null ? '' : `${fixed(low, decimals)} to ${fixed(high, decimals)}`;
}

function what(classId: string | null, { variable, unit }: ComparisonHead): string {
  const name = classId === null ? variable : classId;
  return unit === null ? name : `${name} (${unit})`;
}

function dateSection(date: DateComparison, head: ComparisonHead): string {
  const title = words.head(what(date.classId, head), date.ratingDate, date.role);
  const all = [...date.notes, ...date.analysis.notes, ...(date.percentControl?.notes ?? [])];
  const parts = [underlined(title), ...analysisParts(date.analysis, date.percentControl), notesText(all)];
  if (date.percentControlAnalysis) {
    parts.push(
      words.percentControlAnalysis(what(date.classId, head), date.ratingDate),
      ...analysisParts(date.percentControlAnalysis, null),
      notesText(date.percentControlAnalysis.notes),
    );
  }
  return parts.filter((part) => part !== '').join('\n\n');
}

function underlined(title: string): string {
  return `${title}\n${'='.repeat(title.length)}`;
}

function analysisParts(analysis: TreatmentAnalysis, percentControl: PercentControlTable | null): string[] {
  const plots = analysis.treatments.reduce((sum, { n }) => sum + n, 0);
  const lettered = analysis.treatments.some(
    ({ lettersHsd, lettersLsd }) => lettersHsd !== null || lettersLsd !== null,
  );
  return [
    words.design(analysis.design, analysis.treatments.length, plots, analysis.transform),
    anovaTable(analysis.anova),
    ...(analysis.factorial
      ? [
          anovaTable(analysis.factorial.anova),
          `${words.adjustedTerms}\n${anovaTable(analysis.factorial.adjusted)}`,
          textTable(
            [left(words.levels), right(words.n), right(words.mean), right(words.standardError)],
            analysis.factorial.means.map(({ factor, level, n, mean, standardError }) => [
              `${factor} ${level}`,
              String(n),
              fixed(mean),
              fixed(standardError),
            ]),
          ),
        ]
      : []),
    meansTable(analysis, percentControl),
    [
      words.errorLine({
        cv:
          analysis.coefficientOfVariation === null
            ? words.none
            : `${fixed(analysis.coefficientOfVariation, 1)} %`,
        sed: shown(analysis.standardErrorOfDifference),
        lsd: shown(analysis.leastSignificantDifference.value),
        hsd: shown(analysis.honestlySignificantDifference.value),
        alpha: String(analysis.alpha),
      }),
      ...(analysis.rankTest
        ? [
            words.rank(
              analysis.rankTest.method,
              shown(analysis.rankTest.chiSquare),
              analysis.rankTest.degreesOfFreedom,
              formatP(analysis.rankTest.p),
            ),
          ]
        : []),
      ...(lettered ? [words.sameLetter] : []),
    ].join('\n'),
    contrastTable(analysis),
  ];
}

function anovaTable(rows: readonly (AnovaRow & { readonly pGreenhouseGeisser?: number | null })[]): string {
  return textTable(
    [
      left(words.source),
      right(words.df),
      right(words.sumOfSquares),
      right(words.meanSquare),
      right(words.f),
      right(words.p),
      right(words.greenhouseGeisser),
    ],
    rows.map((row) => [
      row.source,
      String(row.df),
      shown(row.sumOfSquares),
      row.meanSquare === null ? '' : shown(row.meanSquare),
      row.f === null ? '' : shown(row.f),
      shownP(row.p),
      shownP(row.pGreenhouseGeisser),
    ]),
  );
}

function meansTable(analysis: TreatmentAnalysis, percentControl: PercentControlTable | null): string {
  const controlOf = new Map(percentControl?.treatments.map((own) => [own.treatment, own]));
  const decimals = decimalsFor(analysis.treatments.map(({ mean }) => mean));
  const confidence = String(Number((100 * (1 - analysis.alpha)).toPrecision(6)));
  return textTable(
    [
      left(words.treatment),
      right(words.n),
      right(words.mean),
      right(words.standardError),
      right(words.limits(confidence)),
      right(words.transformed),
      left(words.lettersLsd),
      left(words.lettersHsd),
      right(words.difference),
      right(words.dunnett),
      right(words.percentControl),
      right(words.percentControlLimits),
    ],
    analysis.treatments.map((own) => {
      const control = controlOf.get(own.treatment);
      return [
        own.treatment,
        String(own.n),
        fixed(own.mean, decimals),
        own.standardError === null ? '' : fixed(own.standardError, decimals),
        between(own.low, own.high, decimals),
        own.meanTransformed === undefined ? '' : fixed(own.meanTransformed),
        own.lettersLsd ?? '',
        own.lettersHsd ?? '',
        own.dunnett ? fixed(own.dunnett.difference, decimals) : '',
        shownP(own.dunnett?.p),
        control ? fixed(control.percentControl, 1) : '',
        control ? between(control.low, control.high, 1) : '',
      ];
    }),
  );
}

function contrastTable({ contrasts }: TreatmentAnalysis): string {
  if (contrasts.length === 0) return '';
  return textTable(
    [left(words.contrast), right(words.estimate), right(words.standardError), right(words.p)],
    contrasts.map(({ name, estimate, standardError, p }) => [
      name,
      fixed(estimate),
      fixed(standardError),
      shownP(p),
    ]),
  );
}

function overDatesSections(own: ClassOverDates, head: ComparisonHead): string[] {
  const { overDates, classId, role, lengthOfControl } = own;
  const name = what(classId, head);
  const parts = [
    underlined(words.overDates(name, overDates.dates.length)),
    ...testParts(overDates),
    notesText([...own.notes, ...overDates.notes]),
  ];
  if (overDates.area) {
    parts.push(
      underlined(words.area(name, overDates.area.spanDays, role)),
      ...analysisParts(overDates.area.analysis, null),
      notesText(overDates.area.analysis.notes),
    );
  }
  if (lengthOfControl) parts.push(lengthSection(lengthOfControl));
  return parts.filter((part) => part !== '');
}

function testParts({ splitPlot, mixedModel }: OverDatesAnalysis): string[] {
  if (splitPlot) {
    const epsilon = splitPlot.greenhouseGeisserEpsilon;
    return [
      `${words.betweenPlots}\n${anovaTable(splitPlot.betweenPlots)}`,
      `${words.withinPlots}\n${anovaTable(splitPlot.withinPlots)}`,
      epsilon === null ? '' : words.epsilon(fixed(epsilon, 3)),
    ];
  }
  if (!mixedModel) return [];
  const tests = textTable(
    [
      left(words.source),
      right(words.numeratorDf),
      right(words.denominatorDf),
      right(words.f),
      right(words.p),
    ],
    mixedModel.tests.map(({ source, numeratorDf, denominatorDf, f, p }) => [
      source,
      String(numeratorDf),
      fixed(denominatorDf, 1),
      shown(f),
      shownP(p),
    ]),
  );
  const means = textTable(
    [left(words.treatment), right(words.mean), right(words.standardError)],
    mixedModel.means.map(({ treatment, mean, standardError }) => [
      treatment,
      fixed(mean),
      fixed(standardError),
    ]),
  );
  return [`${words.mixedModel}\n${tests}`, means];
}

function lengthSection(table: LengthOfControlTable): string {
  const title = words.length(shown(table.threshold), table.countedFrom);
  if (table.treatments.length === 0) return [title, notesText(table.notes)].join('\n');
  const rows = textTable(
    [left(words.treatment), left(words.held), left(words.passed), left(words.days)],
    table.treatments.map(({ treatment, heldUntil, passedOn, heldDays, passedDays }) => [
      treatment,
      heldUntil ?? words.none,
      passedOn ?? words.none,
      words.between(heldDays, passedDays),
    ]),
  );
  return [title, rows, notesText(table.notes)].filter((part) => part !== '').join('\n');
}

/** Notes, each once, wrapped for a terminal. */
function notesText(notes: readonly Note[]): string {
  const sentences = [...new Set(notes.map(noteText))];
  if (sentences.length === 0) return '';
  return [words.notesTitle, ...sentences.map((sentence) => wrapped(`- ${sentence}`))].join('\n');
}

function wrapped(text: string, indent = '  ', width = 110): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent + word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}
