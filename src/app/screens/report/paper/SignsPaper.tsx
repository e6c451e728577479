import type { CSSProperties } from 'react';
import { reportText } from '../../../../core/text/report.ts';
import { writePlotLabel } from '../../../../core/trial/plotLabel.ts';
import type { TrialPlan } from '../../../../core/trial/trialPlan.ts';
import { qrPath } from '../../../components/qrPath.ts';
import type { PaperSize } from './ReportPaper.tsx';

const text = reportText.signs;
const QUIET_ZONE = 4;
/** Points of type for a name of one character, by signs on a page; as high as a name of three. */
const TYPE_PT = { one: 720, four: 330 } as const;

export interface SignsPaperProps {
  readonly plan: Pick<TrialPlan, 'trial' | 'treatments' | 'plots'>;
  readonly paper: PaperSize;
  readonly perPage: 'one' | 'four';
  /** What of the treatment a sign shows. */
  readonly treatment: 'none' | 'number' | 'name';
}

/** Signs to stand at the plots: large numbers, the code that labels carry, the treatment only where wanted. */
export function SignsPaper({ plan, paper, perPage, treatment }: SignsPaperProps) {
  const { code, name } = plan.trial;
  const names = new Map(plan.treatments.map((one) => [one.number, one.name]));
  return (
    <article className="paper paper-signs" data-paper={paper} data-per-page={perPage} aria-label={text.sheet}>
      <ul>
        {plan.plots.map((plot) => {
          const written = writePlotLabel({ trial: code, plot: plot.plot, place: null, ratingDate: null });
          const qr = qrPath(written);
          const side = qr.size + 2 * QUIET_ZONE;
          return (
            <li key={plot.plot} className="paper-sign">
              <p className="paper-sign-foot">{name}</p>
              <div className="paper-sign-middle">
                <p
                  className="paper-sign-plot"
                  style={
                    {
                      '--sign-size': `${Math.floor(TYPE_PT[perPage] / Math.max(3, plot.plot.length))}pt`,
                    } as CSSProperties
                  }
                >
                  {plot.plot}
                </p>
                {treatment !== 'none' && (
                  <p className="paper-sign-treatment">
                    {text.treatment(plot.treatment)}
                    {treatment === 'name' && <>: {names.get(plot.treatment)}</>}
                  </p>
                )}
              </div>
              <div>
                <svg
                  viewBox={`${-QUIET_ZONE} ${-QUIET_ZONE} ${side} ${side}`}
                  role="img"
                  aria-label={text.qr(plot.plot)}
                >
                  <path d={qr.path} shapeRendering="crispEdges" />
                </svg>
                <p className="paper-sign-foot">{written}</p>
              </div>
            </li>
          );
        })}
      </ul>
    </article>
  );
}
