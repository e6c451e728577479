import { useId, useRef, useState } from 'react';
import { archiveProblemText, archiveText } from '../../../core/text/archive.ts';
import type { Side } from '../../../storage/archive/mergeTypes.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import type { Archive, ImportOutcome, LookedInto } from '../../session/archive.ts';
import { useObservable } from '../../session/useSession.tsx';
import { Brought } from './Brought.tsx';
import { Conflicts } from './Conflicts.tsx';
import styles from './FilesPanel.module.css';
import { WorkProgress } from './WorkProgress.tsx';

const text = archiveText.open;

interface Chosen {
  readonly name: string;
  readonly looked: LookedInto;
}

/** Opens an archive: first what it would bring, then, if the person says so, takes it in. */
export function OpenArchive({ archive }: { archive: Archive }) {
  const { work } = useObservable(archive.state);
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [decisions, setDecisions] = useState<ReadonlyMap<string, Side>>(new Map());
  const [who, setWho] = useState('');
  const [told, setTold] = useState<ImportOutcome | null>(null);
  const picker = useRef<HTMLInputElement>(null);
  const id = useId();

  const choose = async (file: File) => {
    setTold(null);
    setChosen(null);
    setDecisions(new Map());
    setChosen({ name: file.name, looked: await archive.inspect(file) });
  };
  const inspection = chosen?.looked.ok ? chosen.looked.inspection : null;
  const undecided = inspection?.plan.conflicts.filter((conflict) => !decisions.has(conflict.id)).length ?? 0;
  const overrules = [...decisions.values()].includes('there');
  const takeIn = async () => {
    if (!inspection || !chosen) return;
    const signature = { by: who.trim() || null, reason: text.reason(chosen.name) };
    const outcome = await archive.import(inspection, decisions, signature);
    setTold(outcome);
    if (outcome.ok) setChosen(null);
  };
  const isTakingIn = work?.kind === 'taking-in';
  return (
    <section className={styles.card} aria-labelledby={`${id}-title`}>
      <div className={styles.head}>
        <h3 id={`${id}-title`}>{text.title}</h3>
        <p className={styles.intro}>{text.intro}</p>
      </div>
      <div className={styles.row}>
        <Button disabled={work !== null} onClick={() => picker.current!.click()}>
          {text.choose}
        </Button>
        <input
          ref={picker}
          type="file"
          hidden
          accept=".zip,application/zip"
          aria-label={text.choose}
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = '';
            if (file) void choose(file);
          }}
        />
      </div>
      {work?.kind === 'reading' && <p role="status">{text.reading(work.name)}</p>}
      {chosen && !chosen.looked.ok && (
        <Notice kind="trouble">{refusal(chosen.name, chosen.looked.problem)}</Notice>
      )}
      {inspection && (
        <>
          <Brought inspection={inspection} />
          {inspection.plan.conflicts.length > 0 && (
            <>
              <Conflicts
                conflicts={inspection.plan.conflicts}
                decisions={decisions}
                onDecide={(next) => setDecisions(new Map([...decisions, ...next]))}
              />
              {overrules && (
                <div className={styles.field}>
                  <label htmlFor={`${id}-who`}>{text.who}</label>
                  <input
                    id={`${id}-who`}
                    value={who}
                    autoComplete="name"
                    onChange={(event) => setWho(event.target.value)}
                  />
                </div>
              )}
            </>
          )}
          {isTakingIn ? (
            <WorkProgress
              label={text.label}
              words={text.progress(work.photosDone, work.photos)}
              done={work.photosDone}
              all={work.photos}
              onCancel={() => archive.cancel()}
            />
          ) : (
            <div className={styles.row}>
              {bringsSomething(inspection) && (
                <Button
                  look="main"
                  disabled={undecided > 0 || work !== null || (overrules && who.trim() === '')}
                  onClick={() => void takeIn()}
                >
                  {text.run}
                </Button>
              )}
              <Button look="quiet" onClick={() => setChosen(null)}>
                {text.close}
              </Button>
            </div>
          )}
        </>
      )}
      {told && <TakenIn outcome={told} />}
    </section>
  );
}

function refusal(name: string, problem: Extract<LookedInto, { ok: false }>['problem']): string {
  if ('code' in problem && problem.code === 'other-trial') {
    return text.refused(name, text.otherTrial(problem.here, problem.there));
  }
  return text.refused(name, archiveProblemText(problem));
}

function bringsSomething({
  plan,
}: {
  plan: Extract<LookedInto, { ok: true }>['inspection']['plan'];
}): boolean {
  const { puts, deletes } = plan.changes(new Map());
  return puts.length + deletes.length + plan.conflicts.length > 0;
}

function TakenIn({ outcome }: { outcome: ImportOutcome }) {
  if (!outcome.ok) {
    const { problem } = outcome;
    if (problem.code === 'cancelled') return <Notice>{text.cancelled}</Notice>;
    const reason =
      problem.code === 'quota-exceeded'
        ? text.full
        : problem.code === 'write-failed'
          ? problem.detail
          : problem.code;
    return <Notice kind="trouble">{text.failed(reason)}</Notice>;
  }
  return (
    <>
      <Notice>{text.done(outcome.newPhotos)}</Notice>
      {outcome.damaged.length > 0 && (
        <Notice kind="trouble">
          <ul className={styles.told}>
            {outcome.damaged.map(({ name, problem }) => (
              <li key={name}>{text.damaged(name, archiveProblemText(problem))}</li>
            ))}
          </ul>
        </Notice>
      )}
    </>
  );
}
