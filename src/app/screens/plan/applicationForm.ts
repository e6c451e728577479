import type { Application, AppliedProduct } from '../../../core/trial/application.ts';
import type { Quantity } from '../../../core/trial/quantity.ts';
import { celsiusOf, numberOf } from '../../components/formFields.ts';

/** A product as it is typed. */
export interface ProductForm {
  readonly name: string;
  readonly rate: string;
  readonly rateUnit: string;
  readonly use: string;
  readonly cost: string;
  readonly ingredients: string;
  readonly modes: string;
  readonly contents: string;
}

/** An application as it is typed: texts, whatever they will turn out to be. */
export interface ApplicationForm {
  readonly id: string;
  readonly treatments: readonly number[];
  readonly description: string;
  readonly timing: string;
  readonly date: string;
  readonly amount: string;
  readonly distanceUnit: string;
  readonly side: string;
  readonly after: string;
  readonly stage: string;
  readonly expected: string;
  readonly windowBefore: string;
  readonly windowAfter: string;
  readonly temperatureOf: string;
  readonly leastC: string;
  readonly mostC: string;
  readonly meanOfDays: string;
  readonly products: readonly ProductForm[];
  readonly carrier: string;
  readonly carrierUnit: string;
  readonly pressure: string;
  readonly pressureUnit: string;
  readonly equipment: string;
  readonly nozzle: string;
  readonly reEntry: string;
  readonly progress: string;
  readonly doneOn: string;
  readonly finishedAt: string;
  readonly by: string;
  readonly deviations: string;
  readonly airC: string;
  readonly soilC: string;
  readonly humidity: string;
  readonly wind: string;
  readonly windUnit: string;
  readonly cloud: string;
  readonly whyLeftOut: string;
}

export const EMPTY_PRODUCT: ProductForm = {
  name: '',
  rate: '',
  rateUnit: '',
  use: '',
  cost: '',
  ingredients: '',
  modes: '',
  contents: '',
};

const written = (value: string | number | null | undefined) => (value == null ? '' : String(value));
const quantityText = (quantity: Quantity | null) => (quantity ? `${quantity.amount} ${quantity.unit}` : '');

/** What stands in the form for an application; null for a new one of this id. */
export function formOf(application: Application | null, newId: string): ApplicationForm {
  const timing = application?.timing;
  const progress = application?.progress;
  const done = progress?.state === 'done' ? progress : null;
  const window = application?.temperatureWindow;
  const distance = timing && 'amount' in timing ? timing : null;
  return {
    id: application?.id ?? newId,
    treatments: application?.treatments ?? [],
    description: application?.description ?? '',
    timing: timing?.kind ?? 'date',
    date: timing?.kind === 'date' ? timing.date : '',
    amount: written(distance?.amount),
    distanceUnit: distance?.unit ?? 'days',
    side: distance?.side ?? 'after',
    after: timing?.kind === 'from-application' ? timing.application : '',
    stage: timing?.kind === 'growth-stage' ? timing.stage : '',
    expected: timing?.kind === 'growth-stage' ? written(timing.expectedDate) : '',
    windowBefore: written(application?.windowDays.before ?? 0),
    windowAfter: written(application?.windowDays.after ?? 0),
    temperatureOf: window?.of ?? '',
    leastC: written(window?.leastC),
    mostC: written(window?.mostC),
    meanOfDays: written(window?.meanOfDays ?? 1),
    products: (application?.products ?? []).map(productForm),
    carrier: written(application?.carrierVolume?.amount),
    carrierUnit: written(application?.carrierVolume?.unit),
    pressure: written(application?.pressure?.amount),
    pressureUnit: written(application?.pressure?.unit),
    equipment: written(application?.equipment),
    nozzle: written(application?.nozzle),
    reEntry: written(application?.reEntryHours),
    progress: progress?.state ?? 'planned',
    doneOn: written(done?.date),
    finishedAt: written(done?.finishedAt),
    by: written(done?.by),
    deviations: written(done?.deviations),
    airC: written(done?.weather?.airTemperatureC),
    soilC: written(done?.weather?.soilTemperatureC),
    humidity: written(done?.weather?.relativeHumidityPercent),
    wind: written(done?.weather?.wind?.amount),
    windUnit: written(done?.weather?.wind?.unit),
    cloud: written(done?.weather?.cloudPercent),
    whyLeftOut: progress?.state === 'left-out' ? progress.why : '',
  };
}

function productForm(product: AppliedProduct): ProductForm {
  const { activeIngredients } = product;
  return {
    name: product.name,
    rate: written(product.rate?.amount),
    rateUnit: written(product.rate?.unit),
    use: product.use,
    cost: written(product.costPerHectare),
    ingredients: activeIngredients.map(({ name }) => name).join('; '),
    modes: joined(activeIngredients.map(({ modeOfActionGroup }) => written(modeOfActionGroup))),
    contents: joined(activeIngredients.map(({ content }) => quantityText(content))),
  };
}

const joined = (parts: readonly string[]) => (parts.every((part) => part === '') ? '' : parts.join('; '));
const parts = (typed: string) => (typed.trim() === '' ? [] : typed.split(';').map((part) => part.trim()));

/**
 * What was typed as a record for the schema to judge: texts that are no numbers stay texts, so that the problem names
 * them. Not an `Application` before it was checked.
 *
 * @param before the application as it was, whose notes of the weather the form does not show
 */
export function applicationOf(form: ApplicationForm, before: Application | null): unknown {
  const text = (value: string) => value.trim() || null;
  return {
    id: form.id.trim(),
    treatments: [...form.treatments].sort((a, b) => a - b),
    description: form.description.trim(),
    products: form.products.map(productOf),
    timing: timingOf(form),
    windowDays: { before: numberOf(form.windowBefore), after: numberOf(form.windowAfter) },
    temperatureWindow:
      form.temperatureOf === ''
        ? null
        : {
            of: form.temperatureOf,
            leastC: numberOf(form.leastC),
            mostC: numberOf(form.mostC),
            meanOfDays: numberOf(form.meanOfDays),
          },
    carrierVolume: quantityOf(form.carrier, form.carrierUnit),
    equipment: text(form.equipment),
    nozzle: text(form.nozzle),
    pressure: quantityOf(form.pressure, form.pressureUnit),
    reEntryHours: numberOf(form.reEntry),
    progress: progressOf(form, before),
  };
}

function quantityOf(amount: string, unit: string): unknown {
  if (amount.trim() === '' && unit.trim() === '') return null;
  return { amount: numberOf(amount) ?? undefined, unit: unit.trim() };
}

function productOf(product: ProductForm): unknown {
  const modes = parts(product.modes);
  const contents = parts(product.contents);
  return {
    name: product.name.trim(),
    activeIngredients: parts(product.ingredients).map((name, index) => ({
      name,
      modeOfActionGroup: modes[index] || null,
      content: contentOf(contents[index] ?? ''),
    })),
    rate: quantityOf(product.rate, product.rateUnit),
    use: product.use === '' ? undefined : product.use,
    costPerHectare: numberOf(product.cost),
  };
}

/** "240 g/L": a number and a unit. */
function contentOf(typed: string): unknown {
  const match = /^([\d.,]+)\s*(.*)$/.exec(typed.trim());
  return match ? quantityOf(match[1]!, match[2]!) : typed.trim() === '' ? null : typed;
}

function timingOf(form: ApplicationForm): unknown {
  const distance = { amount: numberOf(form.amount) ?? undefined, unit: form.distanceUnit, side: form.side };
  switch (form.timing) {
    case 'date':
      return { kind: 'date', date: form.date };
    case 'from-sowing':
      return { kind: 'from-sowing', ...distance };
    case 'from-application':
      return { kind: 'from-application', application: form.after, ...distance };
    default:
      return { kind: 'growth-stage', stage: form.stage.trim(), expectedDate: form.expected || null };
  }
}

function progressOf(form: ApplicationForm, before: Application | null): unknown {
  const text = (value: string) => value.trim() || null;
  if (form.progress === 'planned') return { state: 'planned' };
  if (form.progress === 'left-out') return { state: 'left-out', why: form.whyLeftOut.trim() };
  const wasDone = before?.progress.state === 'done' ? before.progress : null;
  const weather = {
    airTemperatureC: celsiusOf(form.airC),
    soilTemperatureC: celsiusOf(form.soilC),
    relativeHumidityPercent: numberOf(form.humidity),
    wind: quantityOf(form.wind, form.windUnit),
    cloudPercent: numberOf(form.cloud),
    notes: wasDone?.weather?.notes ?? '',
  };
  const known = Object.values(weather).some((value) => value !== null && value !== '');
  return {
    state: 'done',
    date: form.doneOn,
    finishedAt: text(form.finishedAt),
    by: text(form.by),
    weather: known ? weather : null,
    deviations: form.deviations.trim(),
  };
}
