import { useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { adjacentPlots } from '../../../core/trial/adjacentPlots.ts';
import { checkRecord } from '../../../core/trial/checkRecord.ts';
import type { FieldProblem } from '../../../core/trial/fieldProblem.ts';
import { drawLayout, type Layout, layoutSchema } from '../../../core/trial/layout.ts';
import type { Plot } from '../../../core/trial/plot.ts';
import { LARGEST_SEED, randomBelow, repeatableRandom } from '../../../core/trial/repeatableRandom.ts';
import { adjacentTreatments, randomisedTreatments } from '../../../core/trial/treatment.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { numberOf, problemWords } from '../../components/formFields.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.layout;

/** A drawing, and the controls beside it that there were: laid anew, since the blocks may have moved. */
function withAdjacent(drawn: readonly Plot[], { plots, treatments }: TrialPlan): Plot[] {
  const there = new Set(plots.map(({ treatment }) => treatment));
  const beside = [...adjacentTreatments(treatments)].filter((treatment) => there.has(treatment));
  const laid = [...drawn];
  for (const treatment of beside) laid.push(...adjacentPlots(laid, treatment));
  return laid;
}

const newSeed = () => String(randomBelow(1_000_000, Math.random));

/** Design, replicates and seed of a layout, and the drawing of it. */
export function DrawLayout() {
  const { plan, edit } = usePlan();
  const { layout } = plan;
  const [form, setForm] = useState(() => ({
    design: !layout || layout.design === 'own' ? 'randomized-complete-block' : layout.design,
    replicates: String(layout?.replicates ?? 4),
    rowsPerBlock: String(layout?.rowsPerBlock ?? 1),
    blocksAcross: String(layout?.blocksAcross ?? 1),
    numbering: layout?.numbering ?? 'by-block',
    seed: layout?.seed == null ? newSeed() : String(layout.seed),
  }));
  const [problems, setProblems] = useState<readonly FieldProblem[]>([]);
  const [asked, setAsked] = useState<Layout | null>(null);
  const treatments = randomisedTreatments(plan.treatments).map(({ number }) => number);
  const isSquare = form.design === 'latin-square';
  const isBlocked = form.design === 'randomized-complete-block';

  const check = () => {
    const checked = checkRecord(layoutSchema, {
      design: form.design,
      replicates: isSquare ? treatments.length : numberOf(form.replicates),
      rowsPerBlock: isBlocked ? numberOf(form.rowsPerBlock) : 1,
      blocksAcross: isSquare ? 1 : numberOf(form.blocksAcross),
      numbering: form.numbering,
      seed: numberOf(form.seed) ?? undefined,
      swaps: [],
    });
    setProblems(checked.ok ? [] : checked.problems);
    if (!checked.ok) return;
    if (plan.plots.length > 0) setAsked(checked.value);
    else void draw(checked.value);
  };
  const draw = async (next: Layout) => {
    setAsked(null);
    const plots = drawLayout(treatments, next, repeatableRandom(next.seed!));
    const result = await edit((before) => ({ ...before, layout: next, plots: withAdjacent(plots, before) }));
    if (!result.ok) setProblems(result.problems);
  };
  const field = (
    name: keyof typeof form,
    label: string,
    more: Partial<Parameters<typeof FormField>[0]> = {},
  ) => (
    <FormField
      kind="number"
      {...more}
      label={label}
      value={form[name]}
      onChange={(value) => setForm({ ...form, [name]: value })}
      problem={problemWords(label, problems, name)}
    />
  );
  return (
    <div className={styles.form}>
      <div className={blocks.fields}>
        {field('design', text.design, { choices: Object.entries(text.designs) })}
        {!isSquare && field('replicates', isBlocked ? text.blocks : text.replicates)}
        {isBlocked && field('rowsPerBlock', text.rowsPerBlock)}
        {!isSquare && field('blocksAcross', isBlocked ? text.blocksAcross : text.rowsWide)}
        {field('numbering', text.numbering, { choices: Object.entries(text.numberings) })}
        {field('seed', text.seed, { hint: text.seedHint(LARGEST_SEED) })}
      </div>
      <div className={blocks.row}>
        <Button look="main" disabled={treatments.length < 2} onClick={check}>
          {text.drawIt}
        </Button>
        <Button onClick={() => setForm({ ...form, seed: newSeed() })}>{text.otherSeed}</Button>
      </div>
      {treatments.length < 2 && <p className={blocks.hint}>{text.needsTreatments}</p>}
      {asked && (
        <Dialog title={text.drawAgain} onClose={() => setAsked(null)}>
          <p>{text.drawAgainSentence(plan.plots.length)}</p>
          <div className={styles.actions}>
            <Button onClick={() => setAsked(null)}>{planText.cancel}</Button>
            <Button look="main" onClick={() => void draw(asked)}>
              {text.drawIt}
            </Button>
          </div>
        </Dialog>
      )}
    </div>
  );
}
