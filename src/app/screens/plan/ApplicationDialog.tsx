import { useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { APPLICATION_CAUTION, siQuantityText } from '../../../core/text/trial.ts';
import { type Application, applicationSchema } from '../../../core/trial/application.ts';
import { checkRecord } from '../../../core/trial/checkRecord.ts';
import type { FieldProblem } from '../../../core/trial/fieldProblem.ts';
import { siQuantity } from '../../../core/trial/quantity.ts';
import { readUnit } from '../../../core/trial/unit.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { numberOf, problemWords } from '../../components/formFields.ts';
import { Notice } from '../../components/Notice.tsx';
import {
  type ApplicationForm,
  applicationOf,
  EMPTY_PRODUCT,
  formOf,
  type ProductForm,
} from './applicationForm.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.applications;

type TextField = {
  [Name in keyof ApplicationForm]: ApplicationForm[Name] extends string ? Name : never;
}[keyof ApplicationForm];

/** Everything about one application; kept when all of it can be. */
export function ApplicationDialog(props: {
  readonly application: Application | null;
  readonly onClose: () => void;
}) {
  const { application: before, onClose } = props;
  const { plan, edit } = usePlan();
  const [form, setForm] = useState(() => formOf(before, freeId(plan.applications.map(({ id }) => id))));
  const [problems, setProblems] = useState<readonly FieldProblem[]>([]);

  const save = async () => {
    const checked = checkRecord(applicationSchema, applicationOf(form, before));
    if (!checked.ok) return setProblems(checked.problems);
    const { value } = checked;
    const taken = plan.applications.some(({ id }) => id === value.id && id !== before?.id);
    if (taken) return setProblems([{ field: 'id', value: value.id, code: 'not-unique' }]);
    const result = await edit((now) => ({
      ...now,
      applications: before
        ? now.applications.map((one) => (one.id === before.id ? value : one))
        : [...now.applications, value],
    }));
    if (result.ok) onClose();
    else setProblems(result.problems);
  };
  const remove = async () => {
    const result = await edit((now) => ({
      ...now,
      applications: now.applications.filter(({ id }) => id !== before!.id),
    }));
    if (result.ok) onClose();
  };

  const field = (
    name: TextField,
    label: string,
    path: string,
    more: Partial<Parameters<typeof FormField>[0]> = {},
  ) => (
    <FormField
      {...more}
      label={label}
      value={form[name]}
      onChange={(value) => {
        setForm({ ...form, [name]: value });
        forget(path);
      }}
      problem={problemWords(label, problems, path)}
    />
  );
  // a problem was that of what stood there before
  const forget = (path: string) => setProblems((now) => now.filter(({ field: name }) => name !== path));
  const choices = (record: Readonly<Record<string, string>>) => ({ choices: Object.entries(record) });
  const number = { kind: 'number' } as const;
  const day = { kind: 'date' } as const;
  const { timing, progress } = form;
  const distance = timing === 'from-sowing' || timing === 'from-application';
  const others = plan.applications.filter(({ id }) => id !== before?.id).map(({ id }) => [id, id] as const);

  return (
    <Dialog title={before ? text.editTitle(before.id) : text.newTitle} onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <p className={blocks.hint}>{APPLICATION_CAUTION}</p>
        <div className={blocks.fields}>
          {!before && field('id', text.id, 'id')}
          {field('description', text.description, 'description')}
        </div>
        <fieldset className={blocks.choices}>
          <legend>{text.treatments}</legend>
          {plan.treatments.map(({ number: treatment, name }) => (
            <label key={treatment}>
              <input
                type="checkbox"
                checked={form.treatments.includes(treatment)}
                onChange={(event) => {
                  forget('treatments');
                  setForm({
                    ...form,
                    treatments: event.target.checked
                      ? [...form.treatments, treatment]
                      : form.treatments.filter((one) => one !== treatment),
                  });
                }}
              />
              <span>{text.treatment(treatment, name)}</span>
            </label>
          ))}
          <Trouble words={problemWords(text.treatments, problems, 'treatments')} />
        </fieldset>
        <div className={blocks.fields}>
          {field('timing', text.timing, 'timing.kind', choices(text.timingKind))}
          {timing === 'date' && field('date', text.date, 'timing.date', day)}
          {distance && field('amount', text.amount, 'timing.amount', number)}
          {distance && field('distanceUnit', text.distanceUnit, 'timing.unit', choices(text.units))}
          {distance && field('side', text.side, 'timing.side', choices(text.sides))}
          {timing === 'from-application' &&
            field('after', text.after, 'timing.application', { choices: [['', planText.choose], ...others] })}
          {timing === 'growth-stage' && field('stage', text.stage, 'timing.stage')}
          {timing === 'growth-stage' && field('expected', text.expected, 'timing.expectedDate', day)}
          {field('windowBefore', text.windowBefore, 'windowDays.before', number)}
          {field('windowAfter', text.windowAfter, 'windowDays.after', number)}
        </div>
        {form.products.map((product, index) => (
          <ProductFields
            // biome-ignore lint/suspicious/noArrayIndexKey: products of a form have no name yet
            key={index}
            position={index + 1}
            product={product}
            problems={problems}
            onForget={forget}
            onChange={(changed) =>
              setForm({ ...form, products: form.products.map((one, at) => (at === index ? changed : one)) })
            }
            onRemove={() => setForm({ ...form, products: form.products.filter((_, at) => at !== index) })}
          />
        ))}
        <Button
          className={blocks.fit}
          onClick={() => setForm({ ...form, products: [...form.products, EMPTY_PRODUCT] })}
        >
          {text.addProduct}
        </Button>
        <fieldset className={styles.group}>
          <legend>{text.spraying}</legend>
          <div className={blocks.fields}>
            {field('carrier', text.carrier, 'carrierVolume.amount', number)}
            {field('carrierUnit', planText.trial.unit(text.carrier), 'carrierVolume.unit')}
            {field('pressure', text.pressure, 'pressure.amount', number)}
            {field('pressureUnit', planText.trial.unit(text.pressure), 'pressure.unit')}
            {field('equipment', text.equipment, 'equipment')}
            {field('nozzle', text.nozzle, 'nozzle')}
            {field('reEntry', text.reEntry, 'reEntryHours', { ...number, hint: text.reEntryHint })}
          </div>
        </fieldset>
        <fieldset className={styles.group}>
          <legend>{text.temperature}</legend>
          <div className={blocks.fields}>
            {field(
              'temperatureOf',
              text.temperatureOf,
              'temperatureWindow.of',
              choices(text.temperatureChoices),
            )}
            {form.temperatureOf !== '' && field('leastC', text.least, 'temperatureWindow.leastC', number)}
            {form.temperatureOf !== '' && field('mostC', text.most, 'temperatureWindow.mostC', number)}
            {form.temperatureOf !== '' &&
              field('meanOfDays', text.meanOfDays, 'temperatureWindow.meanOfDays', number)}
          </div>
        </fieldset>
        <fieldset className={styles.group}>
          <legend>{text.progress}</legend>
          <div className={blocks.fields}>
            {field('progress', text.state, 'progress.state', choices(text.progressChoices))}
            {progress === 'done' && field('doneOn', text.doneOn, 'progress.date', day)}
            {progress === 'done' && field('finishedAt', text.finishedAt, 'progress.finishedAt')}
            {progress === 'done' && field('by', text.by, 'progress.by')}
            {progress === 'left-out' && field('whyLeftOut', text.whyLeftOut, 'progress.why')}
          </div>
          {progress === 'done' && (
            <>
              {field('deviations', text.deviations, 'progress.deviations', { kind: 'notes' })}
              <p className={blocks.soft}>{text.weather}</p>
              <div className={blocks.fields}>
                {field('airC', text.air, 'progress.weather.airTemperatureC', number)}
                {field('soilC', text.soil, 'progress.weather.soilTemperatureC', number)}
                {field('humidity', text.humidity, 'progress.weather.relativeHumidityPercent', number)}
                {field('cloud', text.cloud, 'progress.weather.cloudPercent', number)}
                {field('wind', text.wind, 'progress.weather.wind.amount', number)}
                {field('windUnit', planText.trial.unit(text.wind), 'progress.weather.wind.unit')}
              </div>
            </>
          )}
        </fieldset>
        {problems.length > 0 && (
          <Notice kind="trouble">
            <p>{text.notKept(problems.length)}</p>
          </Notice>
        )}
        <div className={styles.actions}>
          {before && (
            <Button look="quiet" onClick={() => void remove()}>
              {planText.remove}
            </Button>
          )}
          <Button onClick={onClose}>{planText.cancel}</Button>
          <Button look="main" type="submit">
            {planText.save}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

function ProductFields(props: {
  readonly position: number;
  readonly product: ProductForm;
  readonly problems: readonly FieldProblem[];
  /** The problem of a field is out of date. */
  readonly onForget: (path: string) => void;
  readonly onChange: (product: ProductForm) => void;
  readonly onRemove: () => void;
}) {
  const { position, product, problems, onForget, onChange, onRemove } = props;
  const at = `products[${position - 1}]`;
  const field = (
    name: keyof ProductForm,
    label: string,
    path: string,
    more: Partial<Parameters<typeof FormField>[0]> = {},
  ) => (
    <FormField
      {...more}
      label={label}
      value={product[name]}
      onChange={(value) => {
        onChange({ ...product, [name]: value });
        onForget(`${at}.${path}`);
      }}
      problem={problemWords(label, problems, `${at}.${path}`)}
    />
  );
  const ingredientProblem = problems.find(({ field: name }) => name.startsWith(`${at}.activeIngredients`));
  return (
    <fieldset className={styles.group}>
      <legend>{text.product(position)}</legend>
      <div className={blocks.fields}>
        {field('name', text.productName, 'name')}
        {field('use', text.use, 'use', { choices: Object.entries(text.uses) })}
        {field('rate', text.rate, 'rate.amount', { kind: 'number' })}
        {field('rateUnit', text.rateUnit, 'rate.unit', { hint: siHint(product) })}
        {field('cost', text.costPerHectare, 'costPerHectare', { kind: 'number' })}
      </div>
      <div className={blocks.fields}>
        {field('ingredients', text.ingredient, 'activeIngredients')}
        {field('modes', text.mode, 'modes')}
        {field('contents', text.content, 'contents')}
      </div>
      <p className={blocks.hint}>{text.ingredientsHint}</p>
      <Trouble words={ingredientProblem ? problemWords(text.ingredient, [ingredientProblem]) : null} />
      <Button
        look="quiet"
        className={blocks.fit}
        aria-label={text.removeProduct(position)}
        onClick={onRemove}
      >
        {planText.remove}
      </Button>
    </fieldset>
  );
}

/** The rate as typed in the international unit, as soon as it can be read. */
function siHint({ rate, rateUnit }: ProductForm): string | undefined {
  const amount = numberOf(rate);
  if (typeof amount !== 'number' || !readUnit(rateUnit).ok) return undefined;
  return text.si(siQuantityText(siQuantity({ amount, unit: rateUnit })));
}

const Trouble = ({ words }: { words: string | null }) =>
  words && (
    <p className={styles.trouble} role="alert">
      {words}
    </p>
  );

/** A1, A2, ..: the first that is not taken. */
function freeId(taken: readonly string[]): string {
  let number = taken.length + 1;
  while (taken.includes(`A${number}`)) number += 1;
  return `A${number}`;
}
