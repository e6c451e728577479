import { pointsText } from '../../../core/text/pointsScreen.ts';
import { FormField } from '../../components/FormField.tsx';
import { usePoints } from './pointsContext.tsx';

/** Chooses the rating date that a part of the screen is about. */
export function WhichDate() {
  const { dates, date, setDate } = usePoints();
  return (
    <FormField
      label={pointsText.date}
      value={date ?? ''}
      onChange={(next) => setDate(next === '' ? null : next)}
      choices={dates.map((one) => [one ?? '', pointsText.day(one)] as const)}
    />
  );
}
