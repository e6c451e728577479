import type { ReactNode } from 'react';
import { variableKey } from '../../../core/statistics/declaredAnalysis.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { SelectField } from '../../components/SelectField.tsx';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, variablesOf, wordsOf } from './comparedTrial.ts';
import { type Shown, shownDate, shownVariable } from './useDateShown.ts';

const text = compareText.shown;

interface ShownFieldsProps {
  readonly compared: ComparedTrial;
  readonly shown: Shown;
  /** Whether a date is chosen here. @default true */
  readonly dates?: boolean;
  /** Further choices of the part. @default none */
  readonly children?: ReactNode;
}

/** Which variable, and which rating date, the part shows. */
export function ShownFields({ compared, shown, dates = true, children }: ShownFieldsProps) {
  const { declared } = compared;
  const variable = shownVariable(compared, shown);
  const all = comparisonOf(compared, variable)?.dates ?? [];
  const date = shownDate(compared, variable, shown);
  const isDeclared = variableKey(variable) === variableKey(declared.variable);
  const decides = isDeclared && declared.when.kind === 'date' ? declared.when.ratingDate : null;
  const exploratory = !isDeclared || (dates && date !== null && date !== decides);
  return (
    <div className={styles.chosen}>
      <SelectField
        label={text.variable}
        value={variableKey(variable)}
        choices={variablesOf(compared).map((one, index) => {
          const { name } = wordsOf(compared, one);
          return [variableKey(one), index === 0 ? text.declaredMark(name) : name] as const;
        })}
        onChange={shown.setVariable}
      />
      {dates && date !== null && (
        <SelectField
          label={text.date}
          value={date}
          choices={all.map((day) => {
            const words = formatDay(day);
            return [day, day === decides ? text.decides(words) : words] as const;
          })}
          onChange={shown.setDate}
        />
      )}
      {children}
      {exploratory && <p className={styles.exploratory}>{text.exploratory}</p>}
    </div>
  );
}
