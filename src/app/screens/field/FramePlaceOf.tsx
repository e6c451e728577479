import { fieldText } from '../../../core/text/field.ts';
import { planText } from '../../../core/text/plan.ts';
import { framePlacesProblemText } from '../../../core/text/trial.ts';
import { framePlacesOf } from '../../../core/trial/framePlaces.ts';
import type { FieldDayState } from '../../session/fieldDay.ts';
import styles from './FramePlaceOf.module.css';

const text = fieldText.frame;
const corners = planText.frame.choices.measuredFrom;

/** Where in the plot the frame goes, in metres from the named corner, and drawn. */
export function FramePlaceOf({ state, ratingDate }: { state: FieldDayState; ratingDate: string }) {
  const { plot, place } = state.stops[state.at]!;
  const { framePlan, trial } = state.trial!.plan;
  const { plotSize } = trial;
  if (!framePlan || !plotSize) return <p className={styles.none}>{text.none}</p>;
  const drawn = framePlacesOf(plot.plot, ratingDate, plotSize, framePlan);
  if (!drawn.ok) return <p className={styles.none}>{framePlacesProblemText(drawn)}</p>;
  const at = drawn.places[place - 1];
  if (!at) return <p className={styles.none}>{text.none}</p>;
  const from = framePlan.measuredFrom;
  const corner = corners[from];
  const [width, length] = [plotSize.grossWidthMm, plotSize.grossLengthMm];
  const right = from.endsWith('right');
  const far = from.startsWith('far');
  const [across, along] = [at.acrossM * 1000, at.alongM * 1000];
  // near is below, as the person sees it who stands before row 1
  const x = right ? width - across - framePlan.frameWidthMm : across;
  const y = far ? along : length - along - framePlan.frameLengthMm;
  const [cornerX, cornerY] = [right ? width : 0, far ? 0 : length];
  const edgeX = right ? x + framePlan.frameWidthMm : x;
  const edgeY = far ? y : y + framePlan.frameLengthMm;
  const margin = width / 12;
  return (
    <div className={styles.frame}>
      <svg
        viewBox={`${-margin} ${-margin} ${width + 2 * margin} ${length + 2 * margin}`}
        role="img"
        aria-label={text.picture(corner, at.acrossM, at.alongM)}
      >
        <rect x="0" y="0" width={width} height={length} />
        <path d={`M${cornerX} ${edgeY}H${edgeX}V${cornerY}`} className={styles.way} />
        <rect
          className={styles.inner}
          x={x}
          y={y}
          width={framePlan.frameWidthMm}
          height={framePlan.frameLengthMm}
        />
        <circle cx={cornerX} cy={cornerY} r={width / 18} />
      </svg>
      <p>
        {text.from(corner)}
        <strong>{text.across(at.acrossM)}</strong>
        <strong>{text.along(at.alongM)}</strong>
        {text.mark(corners[framePlan.markedFrameCorner])}
      </p>
    </div>
  );
}
