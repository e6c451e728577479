import { useEffect, useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { fieldText } from '../../../core/text/field.ts';
import { nextOpenStop } from '../../../core/trial/fieldRound.ts';
import { isBoolean, usePreference } from '../../components/usePreference.ts';
import { useWakeLock } from '../../components/useWakeLock.ts';
import { type FieldDay, openFieldDay } from '../../session/fieldDay.ts';
import { useObservable, usePart } from '../../session/useSession.tsx';
import { ChooseDay } from './ChooseDay.tsx';
import { EndOfRound } from './EndOfRound.tsx';
import styles from './FieldScreen.module.css';
import { PlotPage } from './PlotPage.tsx';
import { ReEntryPage } from './ReEntryPage.tsx';
import { reEntryNow } from './reEntryNow.ts';
import { StartOfDay } from './StartOfDay.tsx';

const isText = (value: unknown): value is string => typeof value === 'string';

/** Photographing plot by plot with a phone in one hand, gloves on, no signal. */
export function FieldScreen({ params: { date = '' } }: { params: { date?: string | undefined } }) {
  const day = usePart(useMemo(() => openFieldDay(date), [date]));
  useEffect(() => {
    document.documentElement.dataset.screen = 'field';
    return () => {
      delete document.documentElement.dataset.screen;
    };
  }, []);
  if (!day) {
    return (
      <div className={styles.page}>
        <h1>{fieldText.title}</h1>
        <p role="status">{fieldText.opening}</p>
      </div>
    );
  }
  return <OpenDay key={date} day={day} />;
}

type View = 'start' | 'round' | 'end';

function OpenDay({ day }: { day: FieldDay }) {
  const state = useObservable(day.state);
  const [, navigate] = useLocation();
  const [who, setWho] = usePreference('plan.signature', '', isText);
  const [leftHanded, setLeftHanded] = usePreference('field.left-handed', false, isBoolean);
  const [view, setView] = useState<View>(() => (state.progress?.plot ? 'round' : 'start'));
  const awake = useWakeLock(true);
  const { trial, stops, progress } = state;

  if (!trial || stops.length === 0) return <ChooseDay state={state} asked={day.ratingDate} />;
  const reEntry = reEntryNow(trial.plan, new Date());
  if (view === 'start' || who === '') {
    const first = stops[state.at]!;
    return (
      <StartOfDay
        state={state}
        ratingDate={day.ratingDate}
        reEntry={reEntry}
        who={who}
        onWho={setWho}
        first={first.plot.plot}
        onGo={() => {
          setView('round');
          void day.goTo(state.at);
        }}
      />
    );
  }
  if (reEntry && reEntry.at !== 'passed' && !progress?.acknowledged.includes(reEntry.last.application)) {
    return (
      <ReEntryPage
        reEntry={reEntry}
        onLeave={() => navigate('/photos')}
        onConfirm={() => void day.acknowledge(reEntry.last, who)}
      />
    );
  }
  if (view === 'end') {
    return (
      <EndOfRound
        state={state}
        ratingDate={day.ratingDate}
        onGo={(at) => {
          setView('round');
          void day.goTo(at);
        }}
      />
    );
  }
  return (
    <PlotPage
      day={day}
      state={state}
      reEntry={reEntry}
      who={who}
      awake={awake}
      leftHanded={leftHanded}
      onLeftHanded={setLeftHanded}
      onNext={() => {
        const next = nextOpenStop(stops, state.at);
        if (next === null) setView('end');
        else void day.goTo(next);
      }}
      onEnd={() => setView('end')}
    />
  );
}
