import { useMemo } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { adjacentPlots } from '../../../core/trial/adjacentPlots.ts';
import { adjacentTreatments } from '../../../core/trial/treatment.ts';
import { walkingOrder } from '../../../core/trial/walkingOrder.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { DrawLayout } from './DrawLayout.tsx';
import { PlanField } from './PlanField.tsx';
import styles from './PlanScreen.module.css';
import { PlotMap } from './PlotMap.tsx';
import { usePlan } from './planContext.tsx';
import { TablesPanel } from './TablesPanel.tsx';
import { WalkFields } from './WalkFields.tsx';

const text = planText.layout;

/** Which treatment lies where: drawn from a seed or read from a table, and changed by hand. */
export function LayoutPart() {
  const { plan } = usePlan();
  return (
    <div className={blocks.sections}>
      <section className={`${blocks.section} ${styles.screenOnly}`} aria-label={text.draw}>
        <h2>{text.draw}</h2>
        <DrawLayout />
        <TablesPanel table="plots" />
      </section>
      {plan.plots.length > 0 && (
        <>
          <section className={`${blocks.section} ${styles.printed}`} aria-label={text.map}>
            <div className={blocks.row}>
              <h2>{text.map}</h2>
              <Button className={styles.screenOnly} onClick={() => window.print()}>
                {text.print}
              </Button>
            </div>
            <PlotMap />
            <AdjacentControls />
          </section>
          <section className={`${blocks.section} ${styles.screenOnly}`} aria-label={text.walk}>
            <h2>{text.walk}</h2>
            <WalkFields />
          </section>
          <PlotTable />
        </>
      )}
    </div>
  );
}

/** Plots of untreated controls beside the treated ones: added to the map, and taken away again. */
function AdjacentControls() {
  const { plan, edit } = usePlan();
  const inMap = (treatment: number) => plan.plots.filter((plot) => plot.treatment === treatment).length;
  return [...adjacentTreatments(plan.treatments)].map((treatment) => {
    const there = inMap(treatment);
    return there === 0 ? (
      <Button
        key={treatment}
        className={`${blocks.fit} ${styles.screenOnly}`}
        onClick={() =>
          void edit((before) => ({
            ...before,
            plots: [...before.plots, ...adjacentPlots(before.plots, treatment)],
          }))
        }
      >
        {text.addAdjacent(treatment)}
      </Button>
    ) : (
      <Button
        key={treatment}
        className={`${blocks.fit} ${styles.screenOnly}`}
        onClick={() =>
          void edit((before) => ({
            ...before,
            plots: before.plots.filter((plot) => plot.treatment !== treatment),
          }))
        }
      >
        {text.removeAdjacent(treatment, there)}
      </Button>
    );
  });
}

function PlotTable() {
  const { plan, trial, edit } = usePlan();
  const inOrder = useMemo(
    () => walkingOrder(plan.plots, trial.photoRules.walk),
    [plan.plots, trial.photoRules.walk],
  );
  const treatments = plan.treatments.map(
    ({ number, name }) => [String(number), `${number} ${name}`] as const,
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
    <section className={`${blocks.scroller} ${styles.screenOnly}`} tabIndex={0} aria-label={text.table}>
      <table className={`${blocks.table} ${blocks.full}`}>
        <caption className="visually-hidden">{text.table}</caption>
        <thead>
          <tr>
            <th scope="col">{text.position}</th>
            <th scope="col">{text.plot}</th>
            <th scope="col">{text.block}</th>
            <th scope="col">{text.treatment}</th>
            <th scope="col">{text.row}</th>
            <th scope="col">{text.column}</th>
          </tr>
        </thead>
        <tbody>
          {inOrder.map(({ plot, block, treatment, row, column }, index) => (
            <tr key={plot}>
              <td>{index + 1}</td>
              <th scope="row">{plot}</th>
              <td>{block ?? planText.none}</td>
              <td className={blocks.wide}>
                {plan.layout?.design === 'own' ? (
                  <PlanField
                    label={text.treatmentOf(plot)}
                    kind="number"
                    path={['plots', { by: 'plot', is: plot }, 'treatment']}
                    choices={treatments}
                    hideLabel
                  />
                ) : (
                  (treatments.find(([number]) => number === String(treatment))?.[1] ?? treatment)
                )}
              </td>
              <td>{row}</td>
              <td>{column}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {plan.layout && plan.layout.design !== 'own' && (
        <p className={blocks.hint}>
          {text.ownHint}{' '}
          <Button
            look="quiet"
            onClick={() =>
              void edit((before) => ({
                ...before,
                layout: before.layout && { ...before.layout, design: 'own', seed: null },
              }))
            }
          >
            {text.makeOwn}
          </Button>
        </p>
      )}
    </section>
  );
}
