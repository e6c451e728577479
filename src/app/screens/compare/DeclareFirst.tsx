import { type FormEvent, useState } from 'react';
import { COVER_METHODS, type CoverMethod } from '../../../core/exchange/coverTable.ts';
import { datesOf } from '../../../core/statistics/compareTrial.ts';
import {
  type ComparedVariable,
  comparedVariables,
  type DecidingTime,
  type DeclaredAnalysis,
  variableKey,
} from '../../../core/statistics/declaredAnalysis.ts';
import { TRANSFORMS, type Transform } from '../../../core/statistics/transforms.ts';
import { compareText, methodText, transformText, variableWords } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { resolveTimings } from '../../../core/trial/resolveTimings.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Notice } from '../../components/Notice.tsx';
import { parseNumber } from '../../components/parseNumber.ts';
import { SelectField } from '../../components/SelectField.tsx';
import { TextField } from '../../components/TextField.tsx';
import { usePreference } from '../../components/usePreference.ts';
import type { TrialComparison } from '../../session/comparison.ts';
import type { OpenTrial } from '../../session/trialState.ts';
import { CodedPlots } from './CodedPlots.tsx';
import styles from './CompareScreen.module.css';
import { DeclaredFacts } from './DeclaredFacts.tsx';

const text = compareText.declare;
const AREA = 'area';

/** Least mean of the control to begin with, percent of cover (common practice, no source). */
const USUAL_PRESSURE = 5;

const isText = (value: unknown): value is string => typeof value === 'string';

interface DeclareFirstProps {
  readonly comparison: TrialComparison;
  readonly trial: OpenTrial;
  /** What holds until now; null where nothing does, or where it cannot be read. */
  readonly before: DeclaredAnalysis | null;
  readonly amends: boolean;
  readonly onCancel: (() => void) | null;
}

/** What will decide, fixed before treatments show; or amended with a reason. */
export function DeclareFirst({ comparison, trial, before, amends, onCancel }: DeclareFirstProps) {
  const { plan } = trial;
  const variables = comparedVariables(plan).filter(({ kind }) => kind !== 'colour');
  const [key, setKey] = useState(() => variableKey(before?.variable ?? usualVariable(plan)));
  const variable = variables.find((one) => variableKey(one) === key) ?? variables[0]!;
  const [method, setMethod] = useState<CoverMethod>(before?.method ?? 'automatic');
  const used = variable.kind === 'rated' ? null : method;
  const there = comparison.observations(variable, used);
  const dates = ratingDates(plan, there?.observations ?? []);
  const [chosen, setChosen] = useState<string | null>(before ? whenKey(before.when) : null);
  const when =
    chosen !== null && (chosen === AREA || dates.includes(chosen)) ? chosen : (dates.at(-1) ?? AREA);
  const [transform, setTransform] = useState<Transform>(before?.transform ?? 'none');
  const [alpha, setAlpha] = useState(String(before?.alpha ?? 0.05));
  const [threshold, setThreshold] = useState(before?.controlThreshold?.toString() ?? '');
  const [pressure, setPressure] = useState(String(before?.minimumPressure ?? USUAL_PRESSURE));
  const [who, setWho] = usePreference('plan.signature', '', isText);
  const [reason, setReason] = useState('');
  const [refused, setRefused] = useState(false);

  const read = {
    alpha: parseNumber(alpha, { least: Number.MIN_VALUE, most: 1 - Number.EPSILON, optional: false }),
    threshold: parseNumber(threshold, { least: -1e9, most: 1e9, optional: true }),
    pressure: parseNumber(pressure, { least: 0, most: 1e9, optional: false }),
  };
  const declared: DeclaredAnalysis | null =
    read.alpha.ok && read.threshold.ok && read.pressure.ok
      ? {
          variable,
          method: used,
          when: when === AREA ? { kind: 'area' } : { kind: 'date', ratingDate: when },
          transform,
          alpha: read.alpha.value!,
          controlThreshold: read.threshold.value,
          minimumPressure: read.pressure.value!,
          classes: plan.trial.classes,
          gapRule: plan.trial.gapRule,
          exclusions: plan.exclusions,
        }
      : null;
  const signed = who.trim() !== '' && (!amends || reason.trim() !== '');

  const declare = async (event: FormEvent) => {
    event.preventDefault();
    if (!declared || !signed) return;
    const kept = await comparison.declare(declared, who.trim(), amends ? reason.trim() : null);
    setRefused(!kept);
  };

  const problem = (ok: boolean, field: string, met: string, allowed: string) =>
    ok ? null : text.number(field, met, allowed);
  return (
    <div className={blocks.sections}>
      <section className={blocks.section}>
        <h2>{amends ? text.amend : text.title}</h2>
        <p className={blocks.lead}>{text.sentence}</p>
      </section>
      <form className={styles.form} onSubmit={(event) => void declare(event)}>
        <div className={blocks.fields}>
          <SelectField
            label={text.variable}
            value={variableKey(variable)}
            choices={variables.map((one) => [
              variableKey(one),
              variableWords(one, plan.trial.classes, plan.ratedVariables).name,
            ])}
            onChange={setKey}
          />
          {variable.kind !== 'rated' && (
            <SelectField
              label={text.method}
              value={method}
              choices={COVER_METHODS.map((one) => [one, methodText[one]])}
              onChange={setMethod}
            />
          )}
          <SelectField
            label={text.when}
            value={when}
            choices={[...dates.map((day) => [day, formatDay(day)] as const), [AREA, text.area]]}
            onChange={setChosen}
          />
          <SelectField
            label={text.transform}
            value={transform}
            choices={TRANSFORMS.map((one) => [one, transformText[one]])}
            onChange={setTransform}
          />
          <TextField
            label={text.alpha}
            value={alpha}
            onChange={setAlpha}
            number
            problem={problem(read.alpha.ok, text.alpha, alpha, text.alphaAllowed)}
          />
          <TextField
            label={text.threshold}
            value={threshold}
            onChange={setThreshold}
            number
            hint={text.thresholdHint}
            problem={problem(read.threshold.ok, text.threshold, threshold, text.numberAllowed)}
          />
          <TextField
            label={text.pressure}
            value={pressure}
            onChange={setPressure}
            number
            hint={text.pressureHint}
            problem={problem(read.pressure.ok, text.pressure, pressure, text.pressureAllowed)}
          />
        </div>
        {used !== null && <MethodCheck comparison={comparison} method={used} />}
        {declared && (
          <details className={styles.more} open={amends}>
            <summary>{text.fromPlan}</summary>
            <DeclaredFacts plan={plan} declared={declared} only={FROM_PLAN} />
            <p className={blocks.hint}>{text.experiment}</p>
          </details>
        )}
        <div className={blocks.fields}>
          <TextField label={text.who} value={who} onChange={setWho} hint={text.whoHint} required />
          {amends && <TextField label={text.reason} value={reason} onChange={setReason} required />}
        </div>
        {refused && (
          <Notice kind="trouble">
            <p>{text.notKept}</p>
          </Notice>
        )}
        <div className={blocks.row}>
          <Button look="main" type="submit" disabled={declared === null || !signed}>
            {amends ? text.keep : text.go}
          </Button>
          {onCancel && <Button onClick={onCancel}>{compareText.cancel}</Button>}
        </div>
      </form>
      {!amends && there && <CodedPlots trial={trial} there={there.observations} dates={dates} />}
    </div>
  );
}

/** Lines of a declaration that come from the plan: classes, small gaps, exclusions. */
const FROM_PLAN = 3;

const whenKey = (when: DecidingTime): string => (when.kind === 'area' ? AREA : when.ratingDate);

/** The class that weeds are measured as, else the first one. */
function usualVariable({ trial }: TrialPlan): ComparedVariable {
  const { classes } = trial;
  const { id } = classes.find(({ startRole }) => startRole === 'light-grass') ?? classes[0]!;
  return { kind: 'class', classId: id };
}

/** Planned rating dates and those with values. */
function ratingDates(plan: TrialPlan, there: readonly { readonly ratingDate: string }[]): string[] {
  const planned = [...resolveTimings(plan).ratings.values()].flatMap((resolved) =>
    'day' in resolved ? [{ ratingDate: resolved.day }] : [],
  );
  return datesOf([...planned, ...there]);
}

function MethodCheck({ comparison, method }: { comparison: TrialComparison; method: CoverMethod }) {
  const checks = comparison.checkMethod(method);
  if (checks.length === 0) return null;
  const missing = checks.flatMap((check) => (check.ok ? [] : [check]));
  if (missing.length === 0) return <p className={blocks.hint}>{text.allPlots}</p>;
  return (
    <ul className={styles.notes}>
      {missing.map(({ ratingDate, plots, instead }) => (
        <li key={ratingDate}>{text.missing(plots, ratingDate, instead as readonly CoverMethod[])}</li>
      ))}
    </ul>
  );
}
