import { useMemo } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { writePlotLabel } from '../../../core/trial/plotLabel.ts';
import { walkingOrder } from '../../../core/trial/walkingOrder.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { qrPath } from '../../components/qrPath.ts';
import styles from './LabelsPart.module.css';
import planStyles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.labels;
const QUIET_ZONE = 4;

/** Plot labels to print: a large number, and a QR code with trial and plot. No treatment is on them. */
export function LabelsPart() {
  const { plan, trial } = usePlan();
  const { code, name } = plan.trial;
  const labels = useMemo(
    () =>
      walkingOrder(plan.plots, trial.photoRules.walk).map(({ plot }) => {
        const written = writePlotLabel({ trial: code, plot, place: null, ratingDate: null });
        return { plot, written, qr: qrPath(written) };
      }),
    [plan.plots, trial.photoRules.walk, code],
  );
  if (labels.length === 0) return <p>{text.needsPlots}</p>;
  return (
    <div className={blocks.sections}>
      <div className={`${planStyles.form} ${planStyles.screenOnly}`}>
        <p className={blocks.hint}>{text.hint}</p>
        <Button look="main" className={blocks.fit} onClick={() => window.print()}>
          {text.print}
        </Button>
      </div>
      <ul className={styles.sheet} aria-label={text.sheet}>
        {labels.map(({ plot, written, qr }) => {
          const side = qr.size + 2 * QUIET_ZONE;
          return (
            <li key={plot} className={styles.label}>
              <svg
                viewBox={`${-QUIET_ZONE} ${-QUIET_ZONE} ${side} ${side}`}
                role="img"
                aria-label={text.qr(plot)}
              >
                <path d={qr.path} shapeRendering="crispEdges" />
              </svg>
              <div>
                <strong>{plot}</strong>
                <p>{name}</p>
                <p className={styles.written}>{written}</p>
              </div>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
