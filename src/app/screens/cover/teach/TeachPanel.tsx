import { type ReactNode, useId } from 'react';
import { lopsidedTeachingText, teach } from '../../../../core/text/teach.ts';
import { doubtReasonText, strokeProblemText, teachingProblemText } from '../../../../core/text/teaching.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { Button } from '../../../components/Button.tsx';
import blocks from '../../../components/blocks.module.css';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { plotWords } from '../../../components/photoWords.ts';
import { SliderField } from '../../../components/SliderField.tsx';
import type { PhotoSummary } from '../../../session/session.ts';
import type { Teaching, TeachingState } from '../../../session/teaching.ts';
import { ClassChoice } from '../ClassChoice.tsx';
import { TakeOver } from './TakeOver.tsx';
import styles from './TeachPanel.module.css';
import type { Brush } from './useBrush.ts';
import { useTreatments } from './useTreatments.ts';
import type { TrialPlot } from './useTrialPlots.ts';

interface TeachPanelProps {
  readonly teaching: Teaching;
  readonly state: TeachingState;
  readonly photo: PhotoSummary;
  readonly photos: readonly PhotoSummary[];
  /** Of the trial; null without one. */
  readonly plots: ReadonlyMap<string, TrialPlot> | null;
  readonly classes: readonly CoverClass[];
  readonly classId: string;
  readonly onClass: (id: string) => void;
  readonly brush: Brush;
  readonly nameOf: (classId: string) => string;
  readonly onQueued: (count: number) => void;
  readonly onDone: () => void;
}

/** What is painted with, what was learnt, what is doubtful, and what to do with it. */
export function TeachPanel(props: TeachPanelProps) {
  const { teaching, state, photo, photos, plots, classes, classId, onClass, brush } = props;
  const { nameOf, onQueued, onDone } = props;
  const name = useId();
  const { strokes, lesson, applied, behind } = state;
  const ids = new Set(photos.map(({ id }) => id));
  const ofDate = [...strokes].flatMap(([id, own]) => (ids.has(id) ? own : []));
  const here = strokes.get(photo.id) ?? [];
  const countOf = (list: readonly { classId: string }[], id: string) =>
    list.filter((stroke) => stroke.classId === id).length;
  const treatments = useTreatments(plots, photos, strokes);
  const taught = lesson?.ok === true;
  // a stroke that crosses the edge of the area teaches what it has inside: nothing to be done about it
  const unusable = state.problems.filter(({ code }) => code !== 'stroke-partly-outside');
  return (
    <aside className={blocks.beside}>
      <header className={styles.title}>
        <div>
          <h1>{teach.title(teaching.ratingDate)}</h1>
          <p>{plotWords(photo.plot)}</p>
        </div>
        <Button onClick={onDone}>{teach.done}</Button>
      </header>

      <fieldset className={styles.classes}>
        <legend className="visually-hidden">{teach.classes}</legend>
        {classes.map((coverClass, index) => (
          <ClassChoice
            key={coverClass.id}
            group={name}
            checked={coverClass.id === classId}
            onChoose={() => {
              onClass(coverClass.id);
              brush.setTool('brush');
            }}
            sign={<ClassSwatch coverClass={coverClass} index={index} />}
            name={nameOf(coverClass.id)}
            detail={teach.count(countOf(here, coverClass.id), countOf(ofDate, coverClass.id))}
            coverFraction={applied?.coverFraction[index]}
            behind={behind}
          />
        ))}
      </fieldset>

      <SliderField
        words={teach.size}
        field={teach.sizeField}
        unit={teach.pixels}
        least={1}
        most={brush.largest}
        value={brush.radiusPx}
        onChange={brush.setRadius}
      />

      {state.trouble !== null && (
        <p className={styles.trouble} role="alert">
          <Icon name="trouble" />
          {teach.trouble(state.trouble)}
        </p>
      )}
      {!taught && (
        <p className={styles.hint}>
          {lesson && !lesson.ok && lesson.problem.code === 'one-class-only'
            ? teachingProblemText(lesson.problem, nameOf)
            : lesson && !lesson.ok && here.length > 0
              ? teachingProblemText(lesson.problem, nameOf)
              : teach.intro}
        </p>
      )}
      {unusable.length > 0 && (
        <Section title={teach.unusable}>
          {unusable.map((problem) => (
            <p key={JSON.stringify(problem)}>{strokeProblemText(problem, nameOf)}</p>
          ))}
        </Section>
      )}
      {taught && applied && applied.reasons.length > 0 && (
        <Section title={teach.doubtTitle} icon>
          {applied.reasons.map((reason) => (
            <p key={JSON.stringify(reason)}>{doubtReasonText(reason, nameOf)}</p>
          ))}
          <p>{teach.doubtHint}</p>
        </Section>
      )}
      {taught && (state.agreement || state.whole) && (
        <Section title={teach.agreementTitle}>
          <p>
            {state.agreement
              ? teach.agreement(state.agreement.agreement, state.agreement.cells)
              : teach.noAgreement}
          </p>
          {lesson.classesWithoutStrokes.length > 0 && (
            <p>{teach.withoutStrokes(lesson.classesWithoutStrokes.map(nameOf))}</p>
          )}
        </Section>
      )}
      {treatments && ofDate.length > 0 && (
        <Section title={teach.treatments} icon={treatments.warning !== null}>
          {treatments.warning && <p>{lopsidedTeachingText(treatments.warning)}</p>}
          <ul>
            {treatments.counts.map(({ treatment, strokes: count, paintedPhotos, photos: all }) => (
              <li key={treatment}>{teach.ofTreatment(treatment, count, paintedPhotos, all)}</li>
            ))}
          </ul>
        </Section>
      )}
      <UseForAll teaching={teaching} state={state} photos={photos} onQueued={onQueued} />
      <TakeOver teaching={teaching} state={state} />
      <p className={styles.caution}>{teach.caution}</p>
    </aside>
  );
}

function Section(props: { title: string; icon?: boolean; children: ReactNode }) {
  const { title, icon = false, children } = props;
  return (
    <section className={styles.section}>
      <h2>
        {icon && <Icon name="trouble" size={18} />}
        {title}
      </h2>
      {children}
    </section>
  );
}

interface UseForAllProps {
  readonly teaching: Teaching;
  readonly state: TeachingState;
  readonly photos: readonly PhotoSummary[];
  readonly onQueued: (count: number) => void;
}

/** The step from trying out to figures: a job in the queue for each photo of the date. */
function UseForAll({ teaching, state, photos, onQueued }: UseForAllProps) {
  const { modelId, lesson } = state;
  const used = photos.filter((photo) => modelId !== null && photo.modelId === modelId).length;
  const usedOther = photos.filter((photo) => photo.modelId !== null).length - used;
  const count = photos.length;
  const use = async () => {
    const queued = await teaching.measureAll();
    if (queued !== null) onQueued(queued);
  };
  return (
    <div className={styles.use}>
      <Button
        look="main"
        large
        disabled={!lesson?.ok || modelId === null || used === count}
        onClick={() => void use()}
      >
        {teaching.ratingDate === null ? teach.measureAllNoDate(count) : teach.measureAll(count)}
      </Button>
      {used > 0 && <p>{teach.used(used, count)}</p>}
      {modelId !== null && usedOther > 0 && <p>{teach.usedOther(usedOther)}</p>}
      {used + usedOther > 0 && (
        <Button look="quiet" className={styles.quiet!} onClick={() => void teaching.adoptStartModel()}>
          {teach.startModel}
        </Button>
      )}
    </div>
  );
}
