import type { PlotTableProblem } from '../exchange/plotTable.ts';
import type { TrialPlanProblem } from '../exchange/trialPlan.ts';
import type { ImportProblem } from '../exchange/trialPlanImport.ts';
import type { TableFault, TableProblem } from '../exchange/trialTablesCells.ts';
import type { AssignmentReason, DateSource } from '../trial/assignPhotos.ts';
import type { FieldFault, FieldForm, FieldProblem } from '../trial/fieldProblem.ts';
import type { NameProblem, PatternProblem } from '../trial/fileNamePattern.ts';
import type { FramePlaces } from '../trial/framePlaces.ts';
import type { LayoutProblem } from '../trial/layoutProblems.ts';
import type { PlanChangeQuery } from '../trial/planChangeQueries.ts';
import type { PlanProblem, PlanQuery } from '../trial/planProblems.ts';
import type { LabelProblem } from '../trial/plotLabel.ts';
import type { SiQuantity } from '../trial/quantity.ts';
import type { ScoreProblem } from '../trial/rating.ts';
import type { LastApplication } from '../trial/reEntry.ts';
import type { WaitingFor } from '../trial/resolveTimings.ts';
import type { TreatmentSummary } from '../trial/treatmentSummary.ts';
import type { CalendarState, TemperatureVerdict } from '../trial/trialCalendar.ts';
import { catalogue } from './catalogue.ts';
import { formatAmount, formatDay, formatPercent, formatQuantity } from './format.ts';

export { formatAmount } from './format.ts';

/** What has to be said, briefly, wherever treatments, products or rates are entered, shown or exported. */
export const APPLICATION_CAUTION = catalogue(
  'APPLICATION_CAUTION',
  'The product label and local regulations decide. Applications belong to people licensed or certified where the law requires it, with the protective equipment the label names. This program recommends no product and no rate.',
);

/** Said of every table that holds an experimental use. */
export const EXPERIMENTAL_USE = catalogue(
  'EXPERIMENTAL_USE',
  'Holds experimental uses that no product label allows.',
);

const LISTED = 8;

/** "1, 2 and 3"; of long lists the first eight and how many more. */
export const listed = catalogue('listed', (items: readonly (string | number)[]): string => {
  const shown = items.slice(0, LISTED).map(String);
  const more = items.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${more} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
});

/** "1.5 fl oz/1000 ft2" gets "4.775 L/ha" beside it. */
export const siQuantityText = ({ amount, unit }: SiQuantity): string => `${formatAmount(amount)} ${unit}`;

const met = (value: unknown): string => {
  if (value === undefined || value === null || value === '') return 'nothing';
  const written = typeof value === 'string' ? value : JSON.stringify(value);
  return `"${written.length > 60 ? `${written.slice(0, 60)}…` : written}"`;
};

const FORMS: Readonly<Record<FieldForm, string>> = {
  id: 'up to 64 letters, digits, ".", "_" and "-" are allowed, the first a letter or digit',
  'plot-name':
    'up to 12 letters, digits, "." and "-" are allowed, the first a letter or digit, as it fits on a label',
  'trial-code': 'six capitals and digits are wanted, without I, L, O and U',
  'class-id': 'small letters and digits, parted by "-", are wanted, e.g. weedy-grass',
  'class-key': 'one capital or digit is wanted',
  colour: 'a colour is written #rrggbb in small letters, e.g. #0072b2',
  instant: 'an instant is written in UTC, e.g. 2027-04-12T01:15:00Z',
};

/** What is wrong with a value and what is allowed, to follow the name of a field or cell. */
export const fieldFaultText = catalogue(
  'fieldFaultText',
  (fault: FieldFault | TableFault, value: unknown): string => {
    switch (fault.code) {
      case 'missing':
        return 'is missing. Fill it in.';
      case 'blank':
        return 'is empty. Fill it in.';
      case 'wrong-kind':
        return `is ${met(value)}; a ${fault.expected} is wanted.`;
      case 'too-small':
        return `is ${met(value)}; ${fault.allowed ? `${fault.least} or more is` : `more than ${fault.least} is`} allowed. Check the number and its unit.`;
      case 'too-large':
        return `is ${met(value)}; ${fault.allowed ? `up to ${fault.most} is` : `less than ${fault.most} is`} allowed. Check the number and its unit.`;
      case 'too-few':
        return `has too few entries; at least ${fault.least} ${fault.least === 1 ? 'is' : 'are'} needed.`;
      case 'too-many':
        return `has too many entries; up to ${fault.most} are allowed.`;
      case 'too-long':
        return `is too long; up to ${fault.most} characters fit.`;
      case 'not-one-of':
        return `is ${met(value)}; choose one of ${fault.allowed.join(', ')}.`;
      case 'unknown-field':
        return `has fields that are not known here: ${listed(fault.names)}. Remove them, or update the program if a newer version wrote them.`;
      case 'not-a-day':
        return `is ${met(value)}; that is no day of the calendar between 1950 and 2149. Days are written YYYY-MM-DD, e.g. 2027-04-12.`;
      case 'not-a-clock-time':
        return `is ${met(value)}; clock times are written HH:MM, e.g. 09:30.`;
      case 'not-whole':
        return `is ${met(value)}; a whole number is wanted.`;
      case 'not-in-this-form':
        return `is ${met(value)}; ${FORMS[fault.form]}.`;
      case 'unit-unknown':
        return `is ${met(value)}, a unit that is not known. Known are, among others, ${listed(fault.allowed)}.`;
      case 'ounce-unclear':
        return `is ${met(value)}: an ounce of weight or a fluid ounce? Write "${fault.choices[0]}" or "${fault.choices[1]}", as the label has it.`;
      case 'unit-of-wrong-kind':
        return `is ${met(value)}, a unit of something else. Units that fit are, among others, ${listed(fault.expected)}.`;
      case 'net-larger-than-gross':
        return `is ${met(value)} mm, more than the gross plot's ${fault.grossMm} mm. The net plot lies inside the gross plot.`;
      case 'bounds-crossed':
        return `has its bounds crossed: least ${fault.least}, most ${fault.most}. Swap them or correct one.`;
      case 'step-does-not-fit':
        return `is ${met(value)}; steps of it do not lead from ${fault.least} to ${fault.most}.`;
      case 'not-unique':
        return `is ${met(value)}, which stands there already. Each may stand once.`;
      case 'table-empty':
        return 'The table holds nothing. It needs a row of column names and a row for each entry.';
      case 'column-missing':
        return `is missing. Columns found: ${listed(fault.found)}. Name the column so, or add it.`;
      case 'column-twice':
        return 'stands there twice. Remove or rename one of the columns.';
      case 'too-many-rows':
        return `${fault.rows} rows are more than a table of this kind holds (up to ${fault.most}). Check that it is the right file, or split it.`;
      case 'too-many-cells':
        return `The row has ${fault.cells} cells under ${fault.columns} column names. A text with a comma in it needs quotes.`;
      case 'not-a-number':
        return `is ${met(value)}; a number is wanted, without its unit.`;
      case 'not-a-timing':
        return `is ${met(value)}. Write a day (2027-04-12), "12 days before sowing", "3 weeks after application A2" or "stage 21".`;
      case 'done-and-left-out':
        return `gives a reason for leaving out what was done on ${fault.doneOn}. Empty one of the two cells.`;
      case 'said-before':
        return `is ${met(value)}, which row ${fault.firstRow} has already. Each may stand once.`;
      case 'differs-from-row':
        return `is ${met(value)}, but row ${fault.firstRow} says ${met(fault.before)}. Make them the same.`;
    }
  },
);

/** A problem of a record, with its field. */
export const fieldProblemText = catalogue(
  'fieldProblemText',
  ({ field, value, ...fault }: FieldProblem): string =>
    `${field || 'The record'} ${fieldFaultText(fault as FieldFault, value)}`,
);

/** A problem of a table, with its row and column. */
export const tableProblemText = catalogue(
  'tableProblemText',
  (problem: TableProblem | PlotTableProblem): string => {
    const { row, column, fault } = problem;
    if (isLayoutFault(fault)) return `${row === null ? '' : `Row ${row}: `}${layoutProblemText(fault)}`;
    const sentence = fieldFaultText(fault, problem.met);
    if (column === null) return `${row === null ? '' : `Row ${row}: `}${sentence}`;
    return row === null ? `Column "${column}" ${sentence}` : `Row ${row}, column "${column}" ${sentence}`;
  },
);

const LAYOUT_CODES: ReadonlySet<string> = new Set<LayoutProblem['code']>([
  'plot-twice',
  'two-plots-in-one-place',
  'treatment-unknown',
  'block-missing',
  'treatment-missing-in-block',
  'treatment-twice-in-block',
  'treatment-without-plot',
  'treatment-twice-in-column',
  'not-a-square',
]);

const isLayoutFault = (fault: TableFault | LayoutProblem): fault is LayoutProblem =>
  LAYOUT_CODES.has(fault.code);

export const layoutProblemText = catalogue('layoutProblemText', (problem: LayoutProblem): string => {
  switch (problem.code) {
    case 'plot-twice':
      return `Plot ${problem.plot} stands there twice. Each plot has a name of its own; rename or remove one.`;
    case 'two-plots-in-one-place':
      return `Plots ${listed(problem.plots)} share row ${problem.row}, column ${problem.column} of the map. Move one of them.`;
    case 'treatment-unknown':
      return `Plot ${problem.plot} has treatment ${problem.treatment}, which this trial does not have. Correct it, or add the treatment first.`;
    case 'block-missing':
      return `Plot ${problem.plot} has no block, but plots of this design lie in blocks. Fill in its block.`;
    case 'treatment-missing-in-block':
      return `Block ${problem.block} has no plot of treatment ${problem.treatment}; in complete blocks every block has every treatment. Add the plot, or choose a layout of your own.`;
    case 'treatment-twice-in-block':
      return `Block ${problem.block} has treatment ${problem.treatment} more than once (plots ${listed(problem.plots)}). Correct one, or choose a layout of your own.`;
    case 'treatment-without-plot':
      return `Treatment ${problem.treatment} has no plot. Give it plots, or remove the treatment.`;
    case 'treatment-twice-in-column':
      return `Column ${problem.column} has treatment ${problem.treatment} more than once (plots ${listed(problem.plots)}). In a Latin square each treatment stands once in every row and column.`;
    case 'not-a-square':
      return `A Latin square of ${problem.treatments} treatments has as many rows and columns and one plot in each place; this map has ${problem.rows} rows and ${problem.columns} columns. Complete it, or choose another design.`;
  }
});

const LIST_NAMES = {
  applications: 'application',
  ratings: 'rating',
  ratedVariables: 'rated variable',
  deviations: 'deviation',
  exclusions: 'exclusion',
} as const;

export const planProblemText = catalogue('planProblemText', (problem: PlanProblem): string => {
  switch (problem.code) {
    case 'treatment-number-twice':
      return `Two treatments have the number ${problem.treatment}. Give one of them another number.`;
    case 'several-untreated-controls':
      return `Treatments ${listed(problem.treatments)} are all marked as untreated control; a trial has one. Unmark the others.`;
    case 'id-twice':
      return `Two records of the kind ${LIST_NAMES[problem.list]} are called "${problem.id}". Rename one.`;
    case 'application-of-unknown-treatment':
      return `Application ${problem.application} is for treatment ${problem.treatment}, which this trial does not have. Correct it, or add the treatment first.`;
    case 'timing-after-unknown-application':
      return `"${problem.of}" is timed by application "${problem.application}", which this trial does not have. Correct its timing.`;
    case 'timing-ring':
      return `Applications ${problem.applications.join(', ')} are each timed by the next${problem.applications.length === 1 ? '' : ' and the last by the first'}, so none of them has a day. Give one of them a day of its own or a distance from sowing.`;
    case 'sowing-after-first-rating':
      return `Sowing on ${formatDay(problem.sowingDate)} lies after the first rating "${problem.rating}" on ${formatDay(problem.firstRating)}. Correct one of the two dates.`;
    case 'rating-date-twice':
      return `Ratings ${listed(problem.ratings)} fall on the same day, ${formatDay(problem.date)}. Move one of them, or make them one rating.`;
    case 'exclusion-of-unknown-plot':
      return `Exclusion ${problem.exclusion} is for plot ${problem.plot}, which this trial does not have. Correct its plot.`;
    default:
      return layoutProblemText(problem);
  }
});

/** A question to the user about something that may be meant. */
export const planQueryText = catalogue('planQueryText', (query: PlanQuery): string => {
  switch (query.code) {
    case 'rate-unlike-others':
      return `The rate of ${query.product} in application ${query.application} is ${formatAmount(query.timesOthers)} times ${query.others === 1 ? 'its other rate' : `its ${query.others} other rates`}. Is the number right, and its unit?`;
    case 'rate-of-other-kind':
      return `The rate of ${query.product} in application ${query.application} is in a unit of another kind (${query.kind}) than its other rates (${query.usualKind}). Is the unit right?`;
    case 'no-untreated-control':
      return 'No treatment is marked as untreated control, so percent control cannot be worked out. Is that meant?';
    case 'application-on-control':
      return `Application ${query.application} puts a product on treatment ${query.treatment}, the untreated control. Is that meant (a treatment of the whole trial)?`;
    case 'name-twice':
      return `Treatments ${listed(query.treatments)} have the same name "${query.name}". Are they different treatments?`;
  }
});

/** What a change of the plan asks before it is kept. */
export const planChangeQueryText = catalogue('planChangeQueryText', (query: PlanChangeQuery): string => {
  switch (query.code) {
    case 'gap-rule-after-rating':
      return `The rule for small gaps changes after the first rating on ${formatDay(query.firstRating)}. Figures before and after would not mean the same: measure the earlier photos again, or keep the rule. Is the change meant?`;
    case 'class-removed-after-rating':
      return `The class "${query.class}" is removed after the first rating on ${formatDay(query.firstRating)}, whose figures use it. Is the change meant?`;
    case 'treatment-moved-after-application':
      return `Plot ${query.plot} gets another treatment although application ${query.application} was done. What was sprayed stays sprayed: is this the correction of a record?`;
  }
});

export const trialPlanProblemText = catalogue('trialPlanProblemText', (problem: TrialPlanProblem): string => {
  switch (problem.code) {
    case 'plan-not-json':
      return `The file is no JSON (${problem.detail}). Choose the trial plan as this program saved it.`;
    case 'plan-other-type':
      return `The file says it is ${met(problem.met)}; a trial plan says "${problem.expected}". Choose the trial plan file.`;
    case 'plan-newer':
      return `The file has version ${met(problem.version)}; known is ${problem.known}. Update the program to open it; the file is left as it is.`;
    case 'plan-field':
      return fieldProblemText(problem.problem);
    case 'plan-contradiction':
      return planProblemText(problem.problem);
  }
});

const TABLE_NAMES = {
  treatments: 'Table of treatments',
  plots: 'Table of plots',
  applications: 'Table of applications',
  ratings: 'Table of rating dates',
} as const;

export const importProblemText = catalogue('importProblemText', (one: ImportProblem): string => {
  return one.table === null
    ? planProblemText(one.problem)
    : `${TABLE_NAMES[one.table]}. ${tableProblemText(one.problem)}`;
});

export const waitingForText = catalogue('waitingForText', (waiting: WaitingFor): string => {
  switch (waiting.code) {
    case 'sowing-date':
      return 'waits for the sowing date';
    case 'growth-stage':
      return `waits for growth stage ${waiting.stage}`;
    case 'application':
      return `waits for application ${waiting.application}`;
    case 'unknown-application':
      return `waits for application ${waiting.application}, which this trial does not have`;
    case 'ring':
      return `waits in a ring: ${waiting.applications.join(', ')}`;
  }
});

export const calendarStateText: Readonly<Record<CalendarState, string>> = catalogue('calendarStateText', {
  done: 'done',
  'left-out': 'left out',
  waiting: 'waiting',
  coming: 'coming',
  'in-window': 'in its window',
  due: 'due today',
  overdue: 'overdue',
});

export const temperatureVerdictText = catalogue(
  'temperatureVerdictText',
  (verdict: TemperatureVerdict): string => {
    const { of, leastC, mostC, meanOfDays } = verdict.window;
    const window = `your window of ${leastC} to ${mostC} °C (${of}, mean of ${formatQuantity(meanOfDays, 'day', 'days')})`;
    if (verdict.verdict === 'unknown') return `No weather rows for ${window}.`;
    const where = { below: 'below', inside: 'inside', above: 'above' }[verdict.verdict];
    return `${formatAmount(verdict.meanC)} °C on ${formatDay(verdict.day)}, ${where} ${window}.`;
  },
);

/** What stands in the calendar file for an application or a rating. */
export const calendarFileText = catalogue('calendarFileText', {
  applicationSummary: (id: string, treatments: readonly number[], description: string) =>
    `Application ${id}: ${description} (treatment ${listed(treatments)})`,
  ratingSummary: (id: string) => `Rating ${id}`,
  window: (first: string, last: string) => `From ${formatDay(first)} to ${formatDay(last)}.`,
  done: (day: string) => `Done on ${formatDay(day)}.`,
  applicationCategory: 'Application',
  ratingCategory: 'Rating',
  experimental: EXPERIMENTAL_USE,
  caution: APPLICATION_CAUTION,
} as const);

/** What a person reads before stepping on a plot. */
export const lastApplicationText = catalogue(
  'lastApplicationText',
  (last: LastApplication | null): string => {
    if (last === null) return 'No application is noted as done here.';
    const what = `Last application: ${listed(last.products)} on ${formatDay(last.day)}${last.finishedAt === null ? '' : `, ${last.finishedAt}`}.`;
    if (last.enterFrom === null)
      return `${what} No re-entry time was entered: read the label before you step on the plot.`;
    return `${what} By the re-entry time you entered (${formatQuantity(last.reEntryHours!, 'hour', 'hours')}), from ${formatDay(last.enterFrom.day)}, ${last.enterFrom.time}; the label decides.`;
  },
);

/** Lines that a treatment's summary has to say besides its numbers. */
export const treatmentSummaryNotes = catalogue(
  'treatmentSummaryNotes',
  (summary: TreatmentSummary): string[] => {
    const notes = summary.repeats.map(
      ({ modeOfActionGroup, inARow }) =>
        `Mode of action ${modeOfActionGroup} is used ${inARow} times in a row.`,
    );
    if (summary.withoutModeOfAction.length > 0) {
      notes.push(`No mode of action is entered for ${listed(summary.withoutModeOfAction)}.`);
    }
    if (summary.withoutDay.length > 0) {
      notes.push(`Applications without a day yet are not counted in a row: ${listed(summary.withoutDay)}.`);
    }
    if (summary.withoutCost.length > 0) {
      notes.push(`The cost leaves out ${listed(summary.withoutCost)}, for which none is entered.`);
    }
    for (const { limit, total, most, verdict, without } of summary.totals) {
      const sum = total === null ? 'unknown' : `${formatAmount(total)} ${most.unit}`;
      if (verdict === 'above') {
        notes.push(
          `${limit.name}: ${sum} in the season, above the most you entered (${siQuantityText(most)}).`,
        );
      }
      if (verdict === 'unknown') {
        notes.push(
          `${limit.name}: total ${sum}, without applications ${listed(without)}, whose part is unknown.`,
        );
      }
    }
    return notes;
  },
);

export const framePlacesProblemText = catalogue(
  'framePlacesProblemText',
  (problem: Extract<FramePlaces, { ok: false }>): string => {
    if (problem.code === 'frame-larger-than-plot') {
      return 'The frame does not fit into the net plot with that distance from its edges. Use a smaller frame or distance.';
    }
    return `Of ${problem.asked} places only ${problem.found} fit into the plot that far apart. Use fewer places, or smaller distances.`;
  },
);

export const scoreProblemText = catalogue('scoreProblemText', (problem: ScoreProblem): string => {
  switch (problem.code) {
    case 'score-not-a-number':
      return 'A score is a number.';
    case 'score-out-of-bounds':
      return `Scores lie between ${problem.least} and ${problem.most}.`;
    case 'score-between-steps':
      return `Scores go in steps of ${problem.step}: ${problem.below} or ${problem.above}.`;
  }
});

export const labelProblemText = catalogue('labelProblemText', (problem: LabelProblem): string => {
  switch (problem.code) {
    case 'not-a-label':
      return 'The code in the photo is no plot label of this program.';
    case 'label-newer':
      return `The label was printed by a newer version of this program (form ${problem.version}). Update the program.`;
    case 'label-damaged':
      return 'The label was read with an error: its check character does not fit. Look at the photo and choose the plot by hand.';
    case 'label-of-other-trial':
      return `The label belongs to another trial (${problem.trial}, plot ${problem.plot}). Put the photo into that trial, or choose the plot by hand.`;
    case 'label-of-unknown-plot':
      return `The label says plot ${problem.plot}, which this trial does not have. Choose the plot by hand.`;
  }
});

export const nameProblemText = catalogue('nameProblemText', (problem: NameProblem): string => {
  switch (problem.code) {
    case 'name-fits-no-pattern':
      return `The file name fits none of the patterns ${listed(problem.patterns)}.`;
    case 'name-with-unknown-plot':
      return `By ${problem.pattern} the file name says plot ${problem.plot}, which this trial does not have.`;
    case 'name-with-impossible-date':
      return `By ${problem.pattern} the file name says ${problem.date}, which is no day of the calendar.`;
  }
});

export const patternProblemText = catalogue('patternProblemText', (problem: PatternProblem): string => {
  switch (problem.code) {
    case 'pattern-unknown-word':
      return `{${problem.word}} is not known. Words in braces are ${problem.words.map((word) => `{${word}}`).join(', ')}.`;
    case 'pattern-word-twice':
      return `{${problem.word}} stands there twice. Use it once; {any} stands for the rest.`;
    case 'pattern-brace-open':
      return `A brace is open or alone in "${problem.pattern}". Braces come in pairs around a word.`;
    case 'pattern-without-words':
      return 'The pattern reads nothing. Put {plot} where the plot stands in the name.';
  }
});

const DATE_SOURCES: Readonly<Record<DateSource, string>> = {
  label: 'from the label',
  'file-name': 'from the file name',
  'capture-time': 'from the camera',
  neighbours: 'from the photos taken before and after it',
  user: 'as you said',
};

/** Why a photo went where it went, or is held; one of several sentences. */
export const assignmentReasonText = catalogue('assignmentReasonText', (reason: AssignmentReason): string => {
  switch (reason.code) {
    case 'by-label':
      return 'Its label was read.';
    case 'by-file-name':
      return `Its file name says so (${reason.pattern}).`;
    case 'by-walking-order':
      return `Walking order: photo ${reason.position} of ${reason.of} of this walk. Order alone cannot see plots photographed in the other's turn.`;
    case 'label-trouble':
      return labelProblemText(reason.problem);
    case 'file-name-trouble':
      return nameProblemText(reason.problem);
    case 'several-labels':
      return `Labels of several plots are in the photo: ${listed(reason.plots)}. Choose the plot in the frame.`;
    case 'label-against-file-name':
      return `The label says plot ${reason.label}, the file name ${reason.fileName}. Look at the photo.`;
    case 'order-says-otherwise':
      return reason.likelier === null
        ? `It says plot ${reason.said}, which does not fit the order of the walk. Look at the photo.`
        : `It says plot ${reason.said}, but by the order of the walk it would be ${reason.likelier}. Look at the photo.`;
    case 'order-unclear':
      return `By the order of the walk it may be ${listed(reason.likely.map(({ plot, probability }) => `${plot} (${formatPercent(Math.min(1, probability))} %)`))}. Photos or plots are missing or extra nearby.`;
    case 'plot-missing-nearby':
      return `Plot ${reason.plot} has no photo, and this one was taken beside the gap: it may be of that plot, out of turn. Look at the photo.`;
    case 'order-not-confirmed':
      return 'Only the order of the walk says so. Say that the plots were walked in this order, or choose the plot by hand.';
    case 'names-against-times':
      return 'File names and times tell different orders, as when photos of two cameras are mixed. Add one camera after the other, or choose the plot by hand.';
    case 'walk-too-long':
      return 'This walk is too long for its order to be looked at. Add its photos in parts, or choose the plot by hand.';
    case 'nothing-to-go-by':
      return 'No label was read, the file name says no plot, and there is no order to go by. Choose the plot by hand.';
    case 'likely-no-plot':
      return 'It is likely a photo of something else than a plot. Choose a plot by hand if it is not.';
    case 'place-unclear':
      return `Which of the ${reason.places} places of the plot it shows is not clear. Choose it by hand.`;
    case 'date-from':
      return `Date ${formatDay(reason.date)}, ${DATE_SOURCES[reason.source]}.`;
    case 'date-unknown':
      return 'The photo has no date. Say on which day these photos were taken.';
    case 'dates-differ':
      return `It has different dates: ${listed(reason.dates.map((date) => formatDay(date)))}. Choose the right one.`;
    case 'no-rating-on-day':
      return reason.nearest === null
        ? `It was taken on ${formatDay(reason.date)}, and the trial has no rating dates yet. Add the rating date.`
        : `It was taken on ${formatDay(reason.date)}, no rating date of this trial; the nearest is ${formatDay(reason.nearest)}. Add the date, or check the camera's clock.`;
    case 'capture-time-unreadable':
      return `The camera wrote "${reason.written}" as time, which cannot be. It was left out of account.`;
    case 'same-file':
      return `It is the same file as ${reason.as}, byte for byte.`;
    case 'same-place-and-date':
      return `Of the same place and date there ${reason.as.length === 1 ? 'is' : 'are'} also ${listed(reason.as)}. Choose one, or keep them as subsamples.`;
  }
});
