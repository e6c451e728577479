import { useState } from 'react';
import { writePlotTable } from '../../../core/exchange/plotTable.ts';
import { importTables } from '../../../core/exchange/trialPlanImport.ts';
import {
  writeApplicationTable,
  writeRatingTable,
  writeTreatmentTable,
} from '../../../core/exchange/trialTables.ts';
import { planText } from '../../../core/text/plan.ts';
import { importProblemText } from '../../../core/text/trial.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Notice } from '../../components/Notice.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { useFilePicker } from './useFilePicker.tsx';

const text = planText.tables;

export type PlanTableName = 'treatments' | 'plots' | 'applications' | 'ratings';

const WRITERS: Readonly<Record<PlanTableName, (plan: TrialPlan) => string>> = {
  treatments: (plan) => writeTreatmentTable(plan.treatments),
  plots: (plan) => writePlotTable(plan.plots, plan.treatments),
  applications: (plan) => writeApplicationTable(plan.applications),
  ratings: (plan) => writeRatingTable(plan.ratings),
};

/** A part of the plan as a table of text: read whole or not at all, and written. */
export function TablesPanel({ table }: { table: PlanTableName }) {
  const { plan, edit } = usePlan();
  const [told, setTold] = useState<{ readonly name: string; readonly problems: readonly string[] } | null>(
    null,
  );
  const [picker, choose] = useFilePicker(text.read[table], '.csv,text/csv,text/plain', async (file) => {
    const read = importTables(plan, { [table]: await file.text() });
    if (!read.ok) {
      setTold({ name: file.name, problems: [...new Set(read.problems.map(importProblemText))] });
      return;
    }
    const imported = withLayout(read.value);
    // only the parts that a table can fill, so that what another tab changed meanwhile stays
    const { treatments, plots, applications, ratings, layout } = imported;
    const filled = {
      treatments: { treatments },
      plots: { treatments, plots, layout },
      applications: { applications },
      ratings: { ratings },
    }[table];
    const result = await edit((before) => ({ ...before, ...filled }));
    if (result.ok) setTold({ name: file.name, problems: [] });
  });
  return (
    <div className={styles.form}>
      <div className={blocks.row}>
        <Button onClick={choose}>{text.read[table]}</Button>
        <Button
          disabled={plan[table].length === 0}
          onClick={() =>
            saveBlob(
              new Blob([WRITERS[table](plan)], { type: 'text/csv' }),
              `${plan.trial.code}-${text.fileNames[table]}.csv`,
            )
          }
        >
          {text.write[table]}
        </Button>
        {picker}
      </div>
      {told?.problems.length === 0 && <Notice>{text.taken(told.name)}</Notice>}
      {told && told.problems.length > 0 && (
        <Notice kind="trouble">
          <div className={styles.sentences}>
            <p>{text.refused(told.name, told.problems.length)}</p>
            <ul>
              {told.problems.slice(0, MOST_SHOWN).map((problem) => (
                <li key={problem}>{problem}</li>
              ))}
            </ul>
            {told.problems.length > MOST_SHOWN && <p>{planText.more(told.problems.length - MOST_SHOWN)}</p>}
          </div>
        </Notice>
      )}
    </div>
  );
}

const MOST_SHOWN = 20;

/** A table of plots that came first says its design: complete blocks where it has blocks, as the reader held it to. */
function withLayout(plan: TrialPlan): TrialPlan {
  if (plan.layout !== null || plan.plots.length === 0) return plan;
  const blocks = new Set(plan.plots.map(({ block }) => block));
  const inBlocks = !blocks.has(null);
  const most = Math.max(
    ...plan.treatments.map(({ number }) => plan.plots.filter(({ treatment }) => treatment === number).length),
  );
  return {
    ...plan,
    layout: {
      design: inBlocks ? 'randomized-complete-block' : 'completely-randomized',
      replicates: inBlocks ? blocks.size : most,
      rowsPerBlock: 1,
      blocksAcross: 1,
      numbering: inBlocks ? 'by-block' : 'in-order',
      seed: null,
      swaps: [],
    },
  };
}
