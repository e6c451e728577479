import { useEffect, useState } from 'react';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { DEFAULT_CLASSES } from '../../../core/trial/defaultClasses.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { Notice } from '../../components/Notice.tsx';
import type { PlacedPoints } from '../../session/pointTraining.ts';
import { openRound, POINTS_A_PICTURE, type TrainingRound } from '../../session/pointTraining.ts';
import { TRAINING_PICTURES } from '../../session/trainingPictures.ts';
import { CallingView } from './CallingView.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { RateStep } from './RateStep.tsx';
import { TrainingResults } from './TrainingResults.tsx';

const text = pointsText.training;
const EVERY_PIXEL = { kind: 'every-pixel' } as const;

/** Observers practise on rendered pictures whose truth is known to the pixel. */
export function TrainingPart() {
  const { points, state, observer, setObserver } = usePoints();
  const [round, setRound] = useState<TrainingRound | 'loading' | { readonly failed: string } | null>(null);
  const [asked, setAsked] = useState(false);
  useEffect(() => {
    if (!round || round === 'loading' || 'failed' in round) return;
    return () => round.close();
  }, [round]);
  const name = observer.trim();
  const number = state.tests.filter((test) => test.observer === name).length + 1;
  const start = async () => {
    if (name === '') return setAsked(true);
    setObserver(name);
    setRound('loading');
    try {
      setRound(await openRound(points, name, number));
    } catch (error) {
      setRound({ failed: (error as Error).message });
    }
  };
  if (round && round !== 'loading' && !('failed' in round)) {
    return <Round key={round.number} round={round} onEnd={() => setRound(null)} />;
  }
  return (
    <div className={blocks.sections}>
      <section className={blocks.section} aria-labelledby="points-training">
        <h2 id="points-training">{text.title}</h2>
        <p className={styles.soft}>{text.intro(TRAINING_PICTURES, POINTS_A_PICTURE)}</p>
        <p className={blocks.hint}>{text.rendered}</p>
        <div className={blocks.fields}>
          <FormField
            label={pointsText.observer}
            value={observer}
            longest={60}
            onChange={(next) => {
              setAsked(false);
              setObserver(next);
            }}
            problem={asked ? pointsText.noObserver : null}
          />
        </div>
        <Button
          look="main"
          className={blocks.fit}
          disabled={round === 'loading'}
          onClick={() => void start()}
        >
          {number === 1 ? text.start : text.again(number)}
        </Button>
        {round === 'loading' && <p role="status">{text.loading}</p>}
        {round && round !== 'loading' && 'failed' in round && (
          <Notice kind="trouble">
            <p>{text.failed(round.failed)}</p>
          </Notice>
        )}
      </section>
      <TrainingResults />
    </div>
  );
}

function Round({ round, onEnd }: { readonly round: TrainingRound; readonly onEnd: () => void }) {
  const [index, setIndex] = useState(0);
  const [rated, setRated] = useState<readonly number[] | null>(null);
  const [results, setResults] = useState<readonly Parameters<TrainingRound['finish']>[0][number][]>([]);
  const step: PlacedPoints = round.pictures[index]!;
  const of = round.pictures.length;
  if (rated === null) {
    return (
      <RateStep
        key={index}
        picture={step.picture}
        classes={DEFAULT_CLASSES}
        place={[index + 1, of]}
        onRated={setRated}
        onLeave={onEnd}
      />
    );
  }
  const next = async () => {
    const made = [...results, round.resultOf(index, rated)];
    setResults(made);
    setRated(null);
    if (index + 1 < of) return setIndex(index + 1);
    await round.finish(made);
    onEnd();
  };
  return (
    <div className={styles.whole}>
      <CallingView
        key={index}
        calling={step.calling}
        picture={{ state: 'ready', picture: step.picture }}
        millimetresPerPixel={step.millimetresPerPixel}
        classes={DEFAULT_CLASSES}
        gapRule={EVERY_PIXEL}
        place={[index + 1, of]}
        pausedHint={text.leaveHint}
        onLeave={onEnd}
        failed={null}
        done={
          <>
            <strong>{pointsText.calling.photoDone}</strong>
            <div className={blocks.row}>
              <Button look="main" large autoFocus onClick={() => void next()}>
                {index + 1 < of ? pointsText.calling.next : pointsText.calling.finish}
              </Button>
              <Button large onClick={() => step.calling.act({ type: 'back' })}>
                {pointsText.calling.back}
              </Button>
            </div>
          </>
        }
      />
    </div>
  );
}
