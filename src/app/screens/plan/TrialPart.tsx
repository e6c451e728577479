import { useMemo, useState } from 'react';
import { writeTrialPlan } from '../../../core/exchange/trialPlan.ts';
import { planText } from '../../../core/text/plan.ts';
import { planProblemText, siQuantityText } from '../../../core/text/trial.ts';
import { planProblems } from '../../../core/trial/planProblems.ts';
import { siQuantity } from '../../../core/trial/quantity.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { DefinitionNotice } from '../../components/DefinitionNotice.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
import { usePhotos } from '../../session/useSession.tsx';
import { ClassesSection } from './ClassesSection.tsx';
import { GapRuleField } from './GapRuleField.tsx';
import { GroupField } from './GroupField.tsx';
import { PlanField } from './PlanField.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.trial;

/** Site, turf, sowing, ground, plot size, what counts as cover, and who rates. */
export function TrialPart() {
  const { plan } = usePlan();
  const { trial } = plan;
  const photos = usePhotos();
  const sowingRemark = useMemo(() => {
    const problem = planProblems(plan).find(({ code }) => code === 'sowing-after-first-rating');
    return problem ? planProblemText(problem) : null;
  }, [plan]);
  return (
    <div className={blocks.sections}>
      <section className={blocks.section} aria-label={text.general}>
        <h2>{text.general}</h2>
        <div className={blocks.fields}>
          <PlanField label={planText.start.name} path={['trial', 'name']} />
          <PlanField label={planText.start.site} path={['trial', 'site', 'name']} />
          <PlanField label={text.latitude} kind="number" path={['trial', 'site', 'latitudeDegrees']} />
          <PlanField label={text.longitude} kind="number" path={['trial', 'site', 'longitudeDegrees']} />
          <p className={styles.fact}>
            <span>{text.code}</span>
            <strong>{trial.code}</strong>
          </p>
        </div>
        <PlanField label={text.siteNotes} kind="notes" path={['trial', 'site', 'notes']} />
      </section>
      <section className={blocks.section} aria-label={text.sowing}>
        <h2>{text.sowing}</h2>
        <PlanField
          label={text.sowingDate}
          kind="date"
          path={['trial', 'sowing', 'date']}
          hint={text.sowingHint}
          remark={sowingRemark}
          narrow
        />
        <GroupField
          path={['trial', 'sowing', 'rate']}
          half={text.rateHalf}
          hint={
            trial.sowing.rate
              ? planText.applications.si(siQuantityText(siQuantity(trial.sowing.rate)))
              : undefined
          }
          fields={[
            { name: 'amount', label: text.sowingRate, kind: 'number' },
            { name: 'unit', label: text.unitShort, kind: 'text' },
          ]}
        />
      </section>
      <section className={blocks.section} aria-label={text.turf}>
        <h2>{text.turf}</h2>
        <div className={blocks.fields}>
          <PlanField label={planText.start.species} path={['trial', 'turf', 'species']} />
          <PlanField label={text.cultivar} path={['trial', 'turf', 'cultivar']} empty={null} />
          <PlanField label={text.sownOver} path={['trial', 'turf', 'sownOver']} empty={null} />
          <PlanField label={text.mowing} kind="number" path={['trial', 'mowing', 'heightMm']} />
        </div>
        <PlanField label={text.mowingNotes} kind="notes" path={['trial', 'mowing', 'notes']} />
        <PlanField label={text.soil} kind="notes" path={['trial', 'soil']} />
        <PlanField label={text.irrigation} kind="notes" path={['trial', 'irrigation']} />
      </section>
      <section className={blocks.section} aria-label={text.plotSize}>
        <h2>{text.plotSize}</h2>
        <GroupField
          path={['trial', 'plotSize']}
          half={text.plotSizeHalf}
          hint={text.plotSizeHint}
          fields={[
            { name: 'grossWidthMm', label: text.grossWidth, kind: 'number' },
            { name: 'grossLengthMm', label: text.grossLength, kind: 'number' },
            { name: 'netWidthMm', label: text.netWidth, kind: 'number' },
            { name: 'netLengthMm', label: text.netLength, kind: 'number' },
          ]}
        />
      </section>
      <section className={blocks.section} aria-label={text.measuring}>
        <h2>{text.measuring}</h2>
        <DefinitionNotice photos={photos} />
        <ClassesSection />
        <GapRuleField />
        <RatersField />
      </section>
      <section className={blocks.section} aria-label={text.file}>
        <h2>{text.file}</h2>
        <div className={blocks.row}>
          <Button
            onClick={() =>
              saveBlob(
                new Blob([writeTrialPlan(plan)], { type: 'application/json' }),
                `${trial.code}-trial-plan.json`,
              )
            }
          >
            {text.saveFile}
          </Button>
          <RemoveTrial />
        </div>
      </section>
    </div>
  );
}

function RatersField() {
  const { plan, edit } = usePlan();
  const [draft, setDraft] = useState<string | null>(null);
  const keep = async () => {
    if (draft === null) return;
    const raters = [...new Set(draft.split(',').map((one) => one.trim()))].filter((one) => one !== '');
    const result = await edit((before) => ({ ...before, trial: { ...before.trial, raters } }));
    if (result.ok) setDraft(null);
  };
  return (
    <FormField
      label={text.raters}
      hint={text.ratersHint}
      value={draft ?? plan.trial.raters.join(', ')}
      onChange={setDraft}
      onDone={() => void keep()}
      onUndo={() => setDraft(null)}
    />
  );
}

function RemoveTrial() {
  const { session, who } = usePlan();
  const [asked, setAsked] = useState(false);
  const [why, setWhy] = useState('');
  return (
    <>
      <Button onClick={() => setAsked(true)}>{text.removeTrial}</Button>
      {asked && (
        <Dialog title={text.removeTrial} onClose={() => setAsked(false)}>
          <form
            className={styles.form}
            onSubmit={(event) => {
              event.preventDefault();
              void session.remove({ who, why: why.trim() });
            }}
          >
            <p>{text.removeSentence}</p>
            <FormField label={planText.reason.label} value={why} onChange={setWhy} required />
            <div className={styles.actions}>
              <Button onClick={() => setAsked(false)}>{planText.cancel}</Button>
              <Button look="main" type="submit" disabled={why.trim() === ''}>
                {text.removeTrial}
              </Button>
            </div>
          </form>
        </Dialog>
      )}
    </>
  );
}
