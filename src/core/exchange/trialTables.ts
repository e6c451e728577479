import { type Application, applicationSchema } from '../trial/application.ts';
import { checkRecord } from '../trial/checkRecord.ts';
import type { Checked, FieldProblem } from '../trial/fieldProblem.ts';
import { groupBy } from '../trial/groupBy.ts';
import type { Quantity } from '../trial/quantity.ts';
import { type Rating, ratingSchema } from '../trial/rating.ts';
import { type Treatment, treatmentSchema } from '../trial/treatment.ts';
import { writeCsv } from './csv.ts';
import {
  type CellReader,
  cellReader,
  openTable,
  type TableProblem,
  type TableRow,
} from './trialTablesCells.ts';
import { parseTiming, writeTiming } from './trialTablesTiming.ts';

/** A table read whole, and the columns it has besides. */
export interface ReadTable<Record> {
  readonly records: readonly Record[];
  readonly leftAside: readonly string[];
}

const MOST_ROWS = 5000;
const FACTOR = 'factor_';

const TREATMENT_COLUMNS = [
  { name: 'treatment', required: true },
  { name: 'name', required: true },
  { name: 'untreated_control', required: false },
  { name: 'notes', required: false },
] as const;

/** Reads treatments: `treatment,name,untreated_control,notes`, and a column `factor_NAME` for each factor. */
export function readTreatmentTable(text: string): Checked<ReadTable<Treatment>, TableProblem> {
  const opened = openTable(text, TREATMENT_COLUMNS, 200, (name) => name.startsWith(FACTOR));
  if (!opened.ok) return opened;
  const problems: TableProblem[] = [];
  const { rows, leftAside, columns } = opened.value;
  const factors = columns.filter((name) => name.startsWith(FACTOR)).map((name) => name.slice(FACTOR.length));
  const records = rows.flatMap((row) => {
    const cells = cellReader(row, problems);
    const levels = factors.flatMap((factor) => {
      const level = cells.text(FACTOR + factor);
      return level === null ? [] : [[factor, level] as const];
    });
    const record = {
      number: cells.whole('treatment') ?? undefined,
      name: cells.text('name') ?? undefined,
      untreatedControl: cells.text('untreated_control'),
      levels: Object.fromEntries(levels),
      notes: cells.text('notes') ?? '',
    };
    return checkedRow(treatmentSchema, record, cells, row, problems, (field) =>
      field === 'number' ? 'treatment' : field === 'untreatedControl' ? 'untreated_control' : field,
    );
  });
  sayTwice(records, ({ number }) => String(number), 'treatment', problems);
  return finish(records, leftAside, problems);
}

export function writeTreatmentTable(treatments: readonly Treatment[]): string {
  const factors = [...new Set(treatments.flatMap(({ levels }) => Object.keys(levels)))];
  return writeCsv(
    [...TREATMENT_COLUMNS.map(({ name }) => name), ...factors.map((factor) => FACTOR + factor)],
    treatments.map(({ number, name, untreatedControl, notes, levels }) => [
      String(number),
      name,
      untreatedControl ?? '',
      notes,
      ...factors.map((factor) => levels[factor] ?? ''),
    ]),
  );
}

const APPLICATION_COLUMNS = [
  { name: 'application', required: true },
  { name: 'treatments', required: true },
  { name: 'description', required: false },
  { name: 'timing', required: true },
  { name: 'window_before', required: false },
  { name: 'window_after', required: false },
  { name: 'product', required: false },
  { name: 'active_ingredients', required: false },
  { name: 'mode_of_action', required: false },
  { name: 'rate', required: false },
  { name: 'rate_unit', required: false },
  { name: 'use', required: false },
  { name: 'cost_per_hectare', required: false },
  { name: 'carrier_volume', required: false },
  { name: 'carrier_unit', required: false },
  { name: 'equipment', required: false },
  { name: 'nozzle', required: false },
  { name: 'pressure', required: false },
  { name: 'pressure_unit', required: false },
  { name: 're_entry_hours', required: false },
  { name: 'done_on', required: false },
  { name: 'finished_at', required: false },
  { name: 'done_by', required: false },
  { name: 'deviations', required: false },
  { name: 'left_out_because', required: false },
] as const;

/** Columns of the product in a row; all others belong to the application. */
const PRODUCT_COLUMNS = new Set<string>([
  'product',
  'active_ingredients',
  'mode_of_action',
  'rate',
  'rate_unit',
  'use',
  'cost_per_hectare',
]);

/**
 * Reads applications, a row for each product: rows of one application are a tank mixture, and cells of the application may
 * be left empty in its later rows. Lists inside a cell are parted by ";": treatments "3;4", active ingredients and their
 * modes of action in the same order.
 *
 * Temperature windows, contents of active ingredients and the weather of an application are not in this table; they are
 * kept in the trial plan file.
 */
export function readApplicationTable(text: string): Checked<ReadTable<Application>, TableProblem> {
  const opened = openTable(text, APPLICATION_COLUMNS, MOST_ROWS);
  if (!opened.ok) return opened;
  const problems: TableProblem[] = [];
  const { rows, leftAside } = opened.value;
  const records = [...groupBy(rows, (row) => row.cell('application'))].flatMap(([, group]) =>
    applicationOf(group, problems),
  );
  return finish(records, leftAside, problems);
}

function applicationOf(rows: readonly TableRow[], problems: TableProblem[]): Read<Application>[] {
  const [first, ...later] = rows as [TableRow, ...TableRow[]];
  const cells = cellReader(first, problems);
  for (const row of later) {
    for (const { name } of APPLICATION_COLUMNS) {
      const [here, before] = [row.cell(name), first.cell(name)];
      if (PRODUCT_COLUMNS.has(name) || here === '' || here === before) continue;
      const fault = { code: 'differs-from-row', firstRow: first.row, before } as const;
      problems.push({ row: row.row, column: name, met: here, fault });
    }
  }
  const doneOn = cells.day('done_on');
  const products = rows.filter((row) => row.cell('product') !== '');
  const record = {
    id: cells.text('application') ?? undefined,
    treatments: listOf(cells.text('treatments')).map((part) => (/^\d+$/.test(part) ? Number(part) : part)),
    description:
      cells.text('description') ?? (products.map((row) => row.cell('product')).join(' + ') || undefined),
    products: products.map((row) => productOf(row, problems)),
    timing: timingOf(cells),
    windowDays: { before: cells.whole('window_before') ?? 0, after: cells.whole('window_after') ?? 0 },
    temperatureWindow: null,
    carrierVolume: quantityOf(cells, 'carrier_volume', 'carrier_unit'),
    equipment: cells.text('equipment'),
    nozzle: cells.text('nozzle'),
    pressure: quantityOf(cells, 'pressure', 'pressure_unit'),
    reEntryHours: cells.number('re_entry_hours'),
    progress: progressOf(cells, doneOn),
  };
  const rowOfField = (field: string) => {
    const index = /^products\[(\d+)\]/.exec(field)?.[1];
    return index === undefined ? first : products[Number(index)]!;
  };
  return checkedRow(applicationSchema, record, cells, first, problems, applicationColumn, rowOfField);
}

function progressOf(cells: CellReader, doneOn: string | null): unknown {
  const why = cells.text('left_out_because');
  if (doneOn === null) return why === null ? { state: 'planned' } : { state: 'left-out', why };
  if (why !== null) cells.problem('left_out_because', { code: 'done-and-left-out', doneOn });
  return {
    state: 'done',
    date: doneOn,
    finishedAt: cells.text('finished_at'),
    by: cells.text('done_by'),
    weather: null,
    deviations: cells.text('deviations') ?? '',
  };
}

function productOf(row: TableRow, problems: TableProblem[]) {
  const cells = cellReader(row, problems);
  const groups = listOf(cells.text('mode_of_action'));
  return {
    name: cells.text('product'),
    activeIngredients: listOf(cells.text('active_ingredients')).map((name, index) => ({
      name,
      modeOfActionGroup: groups[index] || null,
      content: null,
    })),
    rate: quantityOf(cells, 'rate', 'rate_unit'),
    use: cells.text('use') ?? undefined,
    costPerHectare: cells.number('cost_per_hectare'),
  };
}

const listOf = (written: string | null) =>
  written === null ? [] : written.split(';').map((part) => part.trim());

function timingOf(cells: CellReader) {
  const written = cells.text('timing');
  if (written === null) return undefined;
  const timing = parseTiming(written);
  if (timing === null) cells.problem('timing', { code: 'not-a-timing' });
  return timing ?? undefined;
}

function quantityOf(cells: CellReader, amountColumn: string, unitColumn: string): Quantity | null {
  const amount = cells.number(amountColumn);
  const unit = cells.text(unitColumn);
  if (amount === null) return null;
  if (unit === null) cells.problem(unitColumn, { code: 'blank' });
  return { amount, unit: unit ?? '' };
}

function applicationColumn(field: string): string {
  const columns: readonly (readonly [RegExp, string])[] = [
    [/^id$/, 'application'],
    [/^treatments/, 'treatments'],
    [/^windowDays\.before/, 'window_before'],
    [/^windowDays\.after/, 'window_after'],
    [/^timing/, 'timing'],
    [/\.activeIngredients.*modeOfActionGroup$/, 'mode_of_action'],
    [/\.activeIngredients/, 'active_ingredients'],
    [/\.rate\.unit$/, 'rate_unit'],
    [/\.rate/, 'rate'],
    [/\.use$/, 'use'],
    [/\.costPerHectare$/, 'cost_per_hectare'],
    [/^products\[\d+\]\.name$/, 'product'],
    [/^carrierVolume\.unit$/, 'carrier_unit'],
    [/^carrierVolume/, 'carrier_volume'],
    [/^pressure\.unit$/, 'pressure_unit'],
    [/^reEntryHours$/, 're_entry_hours'],
    [/^progress\.date$/, 'done_on'],
    [/^progress\.finishedAt$/, 'finished_at'],
    [/^progress\.by$/, 'done_by'],
    [/^progress\.deviations$/, 'deviations'],
    [/^progress\.why$/, 'left_out_because'],
  ];
  return columns.find(([pattern]) => pattern.test(field))?.[1] ?? field.replace(/[.[].*$/, '');
}

export function writeApplicationTable(applications: readonly Application[]): string {
  const text = (value: string | number | null | undefined) =>
    value === null || value === undefined ? '' : String(value);
  return writeCsv(
    APPLICATION_COLUMNS.map(({ name }) => name),
    applications.flatMap((application) => {
      const { progress, carrierVolume, pressure } = application;
      const done = progress.state === 'done' ? progress : null;
      const products = application.products.length > 0 ? application.products : [null];
      return products.map((product) => [
        application.id,
        application.treatments.join(';'),
        application.description,
        writeTiming(application.timing),
        text(application.windowDays.before),
        text(application.windowDays.after),
        text(product?.name),
        product?.activeIngredients.map(({ name }) => name).join(';') ?? '',
        product?.activeIngredients.map(({ modeOfActionGroup }) => modeOfActionGroup ?? '').join(';') ?? '',
        text(product?.rate?.amount),
        text(product?.rate?.unit),
        text(product?.use),
        text(product?.costPerHectare),
        text(carrierVolume?.amount),
        text(carrierVolume?.unit),
        text(application.equipment),
        text(application.nozzle),
        text(pressure?.amount),
        text(pressure?.unit),
        text(application.reEntryHours),
        text(done?.date),
        text(done?.finishedAt),
        text(done?.by),
        text(done?.deviations),
        progress.state === 'left-out' ? progress.why : '',
      ]);
    }),
  );
}

const RATING_COLUMNS = [
  { name: 'rating', required: true },
  { name: 'timing', required: true },
  { name: 'window_before', required: false },
  { name: 'window_after', required: false },
  { name: 'done_on', required: false },
] as const;

/** Reads rating dates: `rating,timing,window_before,window_after,done_on`. */
export function readRatingTable(text: string): Checked<ReadTable<Rating>, TableProblem> {
  const opened = openTable(text, RATING_COLUMNS, 500);
  if (!opened.ok) return opened;
  const problems: TableProblem[] = [];
  const records = opened.value.rows.flatMap((row) => {
    const cells = cellReader(row, problems);
    const record = {
      id: cells.text('rating') ?? undefined,
      timing: timingOf(cells),
      windowDays: { before: cells.whole('window_before') ?? 0, after: cells.whole('window_after') ?? 0 },
      doneOn: cells.day('done_on'),
      conditions: null,
    };
    return checkedRow(ratingSchema, record, cells, row, problems, (field) =>
      field === 'id' ? 'rating' : applicationColumn(field),
    );
  });
  sayTwice(records, ({ id }) => id, 'rating', problems);
  return finish(records, opened.value.leftAside, problems);
}

export function writeRatingTable(ratings: readonly Rating[]): string {
  return writeCsv(
    RATING_COLUMNS.map(({ name }) => name),
    ratings.map(({ id, timing, windowDays, doneOn }) => [
      id,
      writeTiming(timing),
      String(windowDays.before),
      String(windowDays.after),
      doneOn ?? '',
    ]),
  );
}

interface Read<Value> {
  readonly value: Value;
  readonly row: number;
}

/** Checks a record made from a row; its problems go to the cells they came from. */
function checkedRow<Value>(
  schema: Parameters<typeof checkRecord<Value>>[0],
  record: unknown,
  cells: CellReader,
  row: TableRow,
  problems: TableProblem[],
  columnOf: (field: string) => string,
  rowOf: (field: string) => TableRow = () => row,
): Read<Value>[] {
  const checked = checkRecord(schema, record);
  if (checked.ok) return [{ value: checked.value, row: row.row }];
  for (const { field, value: _, ...fault } of checked.problems as readonly FieldProblem[]) {
    const [column, at] = [columnOf(field), rowOf(field)];
    // A cell that could not be read is told of once.
    if (problems.some((one) => one.row === at.row && one.column === column)) continue;
    if (at === row) cells.problem(column, fault);
    else problems.push({ row: at.row, column, met: at.cell(column), fault });
  }
  return [];
}

function sayTwice<Value>(
  records: readonly Read<Value>[],
  keyOf: (value: Value) => string,
  column: string,
  problems: TableProblem[],
): void {
  for (const [key, [first, ...later]] of groupBy(records, ({ value }) => keyOf(value))) {
    for (const { row } of later) {
      problems.push({ row, column, met: key, fault: { code: 'said-before', firstRow: first!.row } });
    }
  }
}

function finish<Value>(
  records: readonly Read<Value>[],
  leftAside: readonly string[],
  problems: readonly TableProblem[],
): Checked<ReadTable<Value>, TableProblem> {
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: { records: records.map(({ value }) => value), leftAside } };
}
