import { useEffect, useRef, useState } from 'react';
import type { PhotoCheck } from '../../../core/quality/checkPhoto.ts';
import { fieldText } from '../../../core/text/field.ts';
import { frameMissingText, frameWarningText } from '../../../core/text/quality.ts';
import { lastApplicationText } from '../../../core/text/trial.ts';
import { nextOpenStop } from '../../../core/trial/fieldRound.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import { Notice } from '../../components/Notice.tsx';
import { OnlyHere } from '../../components/OnlyHere.tsx';
import { problemText } from '../../components/problemText.ts';
import { Verdict } from '../../components/Verdict.tsx';
import { type FieldDay, type FieldDayState, photographed } from '../../session/fieldDay.ts';
import { FieldBar } from './FieldBar.tsx';
import { FieldMap } from './FieldMap.tsx';
import styles from './FieldScreen.module.css';
import { FieldSettings } from './FieldSettings.tsx';
import { FramePlaceOf } from './FramePlaceOf.tsx';
import { PlotList } from './PlotList.tsx';
import type { ReEntryNow } from './reEntryNow.ts';
import { SkipDialog } from './SkipDialog.tsx';
import { StopPictures } from './StopPictures.tsx';
import { useCamera } from './useCamera.tsx';
import { useVerdictBuzz } from './useVerdictBuzz.ts';

interface PlotPageProps {
  readonly day: FieldDay;
  readonly state: FieldDayState;
  readonly reEntry: ReEntryNow | null;
  readonly who: string;
  readonly awake: boolean;
  readonly leftHanded: boolean;
  readonly onLeftHanded: (left: boolean) => void;
  readonly onNext: () => void;
  readonly onEnd: () => void;
}

/** One stop of the round: where it is, where the frame goes, the camera, and what the photo is worth. */
export function PlotPage(props: PlotPageProps) {
  const { day, state, reEntry, who, leftHanded, onNext, onEnd } = props;
  const { stops, at, placesPerPlot, check, missed, storing } = state;
  const [dialog, setDialog] = useState<'skip' | 'list' | 'settings' | null>(null);
  const camera = useCamera(day, who);
  useVerdictBuzz(stops);
  const top = useRef<HTMLHeadingElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another stop is another page
  useEffect(() => {
    window.scrollTo(0, 0);
    top.current?.focus();
  }, [at]);

  const stop = stops[at]!;
  const { plot, place, photo, skipped, replaced } = stop;
  const shownPlace = placesPerPlot === 1 ? null : place;
  const next = nextOpenStop(stops, at);
  const late = stops.findIndex((one, index) => index !== at && one.verdict === 'retake');
  const where = [
    ...(shownPlace === null ? [] : [fieldText.place(shownPlace, placesPerPlot)]),
    fieldText.lies(plot.row, plot.column),
  ];
  return (
    <div className={styles.plotPage} data-hand={leftHanded ? 'left' : 'right'}>
      {camera.inputs}
      <div className={styles.title}>
        <h1 ref={top} tabIndex={-1}>
          {fieldText.plot(plot.plot)}
        </h1>
        <p className={styles.count}>
          <progress max={stops.length} value={photographed(stops)} aria-label={fieldText.progressLabel} />
          {fieldText.progress(photographed(stops), stops.length)}
        </p>
        <p className={styles.where}>{where.join(' · ')}</p>
        <Button look="quiet" aria-label={fieldText.more} onClick={() => setDialog('settings')}>
          <Icon name="more" size={28} />
        </Button>
      </div>
      {missed && (
        <Notice kind="trouble">
          <p>{fieldText.missed(missed.plot, placesPerPlot === 1 ? null : missed.place)}</p>
          <Button onClick={camera.choose}>{fieldText.choose}</Button>
        </Notice>
      )}
      {camera.refused && <Notice kind="trouble">{refusedWords(camera.refused)}</Notice>}
      {late >= 0 && (
        <Button className={styles.late} onClick={() => void day.goTo(late)}>
          <Icon name="trouble" />
          {fieldText.late(stops[late]!.plot.plot, placesPerPlot === 1 ? null : stops[late]!.place)}
        </Button>
      )}
      {photo === null ? (
        <>
          <p className={reEntry && reEntry.at !== 'passed' ? styles.warning : styles.reEntry}>
            {reEntry && <strong>{fieldText.reEntry.short[reEntry.at]} </strong>}
            {lastApplicationText(reEntry?.last ?? null)}
          </p>
          {skipped !== null && <p className={styles.lead}>{fieldText.skipped(skipped)}</p>}
          <div className={styles.finding}>
            <FieldMap stops={stops} at={at} onOpen={() => setDialog('list')} />
            <FramePlaceOf state={state} ratingDate={day.ratingDate} />
          </div>
        </>
      ) : (
        <>
          <Verdict quality={check?.quality ?? null} large />
          {stop.unframed && check && (
            <Notice kind="trouble">
              {frameWords(check).map((words) => (
                <p key={words}>{words}</p>
              ))}
            </Notice>
          )}
        </>
      )}
      <StopPictures stop={stop} preview={photo === camera.taken?.photoId ? camera.taken.url : null} />
      {replaced.length > 0 && (
        <p className={styles.earlier}>
          {fieldText.earlier(replaced.length)}
          <Button onClick={() => void day.restoreEarlier(who)}>{fieldText.useEarlier}</Button>
        </p>
      )}
      <OnlyHere ratingDate={day.ratingDate} />
      <FieldBar
        hasPhoto={photo !== null}
        retake={stop.verdict === 'retake' || stop.unframed}
        storing={storing}
        cameraLabel={fieldText.cameraOf(plot.plot, shownPlace)}
        nextPlot={next === null ? null : stops[next]!.plot.plot}
        onCamera={camera.open}
        onNext={onNext}
        onBack={at > 0 ? () => void day.goTo(at - 1) : null}
        onSkip={() => setDialog('skip')}
      />
      {dialog === 'skip' && (
        <SkipDialog
          plot={plot.plot}
          place={shownPlace}
          onClose={() => setDialog(null)}
          onSkip={async (reason) => {
            setDialog(null);
            await day.skip(reason, who);
            onNext();
          }}
        />
      )}
      {dialog === 'list' && (
        <PlotList
          state={state}
          onClose={() => setDialog(null)}
          onGo={(to) => {
            setDialog(null);
            void day.goTo(to);
          }}
          onEnd={onEnd}
        />
      )}
      {dialog === 'settings' && (
        <FieldSettings
          state={state}
          ratingDate={day.ratingDate}
          who={who}
          awake={props.awake}
          leftHanded={leftHanded}
          onLeftHanded={props.onLeftHanded}
          onClose={() => setDialog(null)}
          onEnd={onEnd}
        />
      )}
    </div>
  );
}

function refusedWords(refused: NonNullable<ReturnType<typeof useCamera>['refused']>): string {
  if (refused.state === 'same-photo') {
    return fieldText.samePhoto(refused.name, refused.plot, refused.ratingDate);
  }
  return fieldText.refused(problemText(refused.problem));
}

/** Why no frame was used, and what to do. */
function frameWords({ frame }: PhotoCheck): string[] {
  if (frame?.found) return frame.warnings.map(frameWarningText);
  return frame ? [frameMissingText(frame.reason)] : [];
}
