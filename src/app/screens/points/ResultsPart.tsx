import { useState } from 'react';
import { useLocation } from 'wouter';
import { observersOf } from '../../../core/point-grid/countedPhoto.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { AdjustedSection } from './AdjustedSection.tsx';
import { EstimatesSection } from './EstimatesSection.tsx';
import { FiguresSection } from './FiguresSection.tsx';
import { MaskSection } from './MaskSection.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { useCounted, useFigures } from './useCounted.ts';
import { WhichDate } from './WhichDate.tsx';

const text = pointsText.results;

/** What one observer's points say of a date: cover, the masks' errors, adjusted cover. */
export function ResultsPart() {
  const { observer: own } = usePoints();
  const counted = useCounted();
  const [, navigate] = useLocation();
  const [asked, setAsked] = useState<string | null>(null);
  const observers = counted ? observersOf(counted) : [];
  const observer = observers.find((one) => one === (asked ?? own.trim())) ?? observers[0] ?? null;
  const figures = useFigures(observer ?? '');
  return (
    <div className={blocks.sections}>
      <div className={blocks.fields}>
        <WhichDate />
        {observer !== null && (
          <FormField
            label={pointsText.observer}
            value={observer}
            onChange={setAsked}
            choices={observers.map((one) => [one, one] as const)}
          />
        )}
      </div>
      {counted !== null && observer === null && (
        <div className={styles.empty}>
          <p className={blocks.lead}>{text.none}</p>
          <Button look="main" className={blocks.fit} onClick={() => navigate('/points')}>
            {pointsText.part.count}
          </Button>
        </div>
      )}
      {observer !== null && figures && (
        <>
          <EstimatesSection photos={figures.photos} observer={observer} />
          <MaskSection photos={figures.photos} observer={observer} />
          <AdjustedSection figures={figures} observer={observer} />
          <FiguresSection figures={figures} observer={observer} />
          <p className={blocks.hint}>{pointsText.photoOnly}</p>
        </>
      )}
    </div>
  );
}
