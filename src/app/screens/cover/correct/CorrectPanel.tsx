import { useId } from 'react';
import { AUTOMATIC } from '../../../../core/mask/correctionLayer.ts';
import { correct } from '../../../../core/text/correct.ts';
import { correctionBytesProblemText } from '../../../../core/text/mask.ts';
import { Button } from '../../../components/Button.tsx';
import blocks from '../../../components/blocks.module.css';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { dateWords, plotWords } from '../../../components/photoWords.ts';
import { Segments } from '../../../components/Segments.tsx';
import type { CorrectingNotice, CorrectingState } from '../../../session/correcting/correctingState.ts';
import type { Correcting } from '../../../session/correcting.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { ClassChoice } from '../ClassChoice.tsx';
import { CorrectionRecord } from './CorrectionRecord.tsx';
import styles from './CorrectPanel.module.css';
import { ToolOptions } from './ToolOptions.tsx';
import { TreatmentShares } from './TreatmentShares.tsx';
import { LOOKS, type Looks } from './useLooks.ts';
import type { Tools } from './useTools.ts';
import type { TreatmentShares as Shares } from './useTreatmentCorrections.ts';

interface CorrectPanelProps {
  readonly correcting: Correcting;
  readonly state: CorrectingState;
  readonly photo: PhotoSummary;
  readonly tools: Tools;
  readonly looks: Looks;
  /** In class order. */
  readonly names: readonly string[];
  readonly by: string;
  readonly onBy: (name: string) => void;
  readonly shares: Shares | null;
  readonly treatmentsShown: boolean;
  readonly onShowTreatments: () => void;
  readonly onDone: () => void;
}

/** What is painted with, how it is looked at, what it did to the cover, and the record of it. */
export function CorrectPanel(props: CorrectPanelProps) {
  const { correcting, state, photo, tools, looks, names, by, onBy, shares, onDone } = props;
  const group = useId();
  const { classes, covers, notice } = state;
  return (
    <aside className={blocks.beside}>
      <header className={styles.title}>
        <div>
          <h1>{correct.title}</h1>
          <p>
            {plotWords(photo.plot)}, {dateWords(photo.ratingDate)}
          </p>
        </div>
        <Button onClick={onDone}>{correct.done}</Button>
      </header>
      {notice && (
        <div className={styles.notice} role="alert">
          <Icon name="trouble" />
          <p>{noticeText(notice)}</p>
          <Button look="quiet" aria-label={correct.dismiss} onClick={() => correcting.dismissNotice()}>
            <Icon name="close" />
          </Button>
        </div>
      )}
      {state.problem && <p role="alert">{correctionBytesProblemText(state.problem)}</p>}
      {state.phase === 'no-mask' && <p role="status">{correct.noMask}</p>}

      <fieldset className={styles.classes}>
        <legend className="visually-hidden">{correct.classes}</legend>
        {classes.map((coverClass, index) => {
          const now = covers?.corrected[index];
          const computed = covers?.automatic[index];
          return (
            <ClassChoice
              key={coverClass.id}
              group={group}
              checked={tools.label === index + 1}
              onChoose={() => tools.setLabel(index + 1)}
              sign={<ClassSwatch coverClass={coverClass} index={index} />}
              name={names[index]!}
              detail={
                computed !== undefined && (
                  <>
                    {correct.automaticShare(computed)}
                    {now !== undefined && now !== computed && <> · {correct.difference(now - computed)}</>}
                  </>
                )
              }
              coverFraction={now}
            />
          );
        })}
        <ClassChoice
          group={group}
          checked={tools.label === AUTOMATIC}
          onChoose={() => tools.setLabel(AUTOMATIC)}
          sign={
            <span className={styles.computed}>
              <Icon name="eraser" />
            </span>
          }
          name={correct.asComputed}
          detail={correct.asComputedHint}
        />
      </fieldset>

      <ToolOptions
        tools={tools}
        correcting={correcting}
        state={state}
        names={names}
        hasScale={correcting.area?.millimetresPerPixel != null}
      />
      <div className={styles.view}>
        <Segments
          label={correct.view}
          value={looks.look}
          choices={LOOKS.map((look) => [look, correct.views[look]] as const)}
          onChange={looks.setLook}
        />
      </div>
      <CorrectionRecord correcting={correcting} state={state} names={names} by={by} onBy={onBy} />
      {shares && (
        <TreatmentShares
          shares={shares}
          classNames={names}
          shown={props.treatmentsShown}
          onShow={props.onShowTreatments}
        />
      )}
      <p className={styles.soft}>{correct.caution}</p>
    </aside>
  );
}

const noticeText = (notice: CorrectingNotice): string =>
  notice.code === 'worker-stopped' ? correct.workerStopped(notice.detail) : correct.notices[notice.code];
