import { useEffect, useMemo, useState } from 'react';
import { area as words } from '../../../../core/text/area.ts';
import { Button } from '../../../components/Button.tsx';
import blocks from '../../../components/blocks.module.css';
import { FormField } from '../../../components/FormField.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { Page } from '../../../components/Page.tsx';
import { dateWords } from '../../../components/photoWords.ts';
import { Segments } from '../../../components/Segments.tsx';
import { oneOf, usePreference } from '../../../components/usePreference.ts';
import { openFixedPlaces } from '../../../session/fixedPlaces.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { usePart } from '../../../session/useSession.tsx';
import { useOverlay } from '../useOverlay.ts';
import { ChangeTable } from './ChangeTable.tsx';
import styles from './DatesScreen.module.css';
import { PlacePicture } from './PlacePicture.tsx';
import { samePlace } from './samePlace.ts';

type Show = 'side-by-side' | 'flip';
const isShow = oneOf<Show>('side-by-side', 'flip');

interface DatesScreenProps {
  readonly photo: PhotoSummary;
  readonly photos: readonly PhotoSummary[];
  readonly onDone: () => void;
}

/** Two dates of one place, laid over each other by the frame, and what changed between them patch by patch. */
export function DatesScreen({ photo, photos, onDone }: DatesScreenProps) {
  const places = usePart(openFixedPlaces);
  const dates = useMemo(() => samePlace(photo, photos), [photo, photos]);
  const [show, setShow] = usePreference<Show>('dates.show', 'side-by-side', isShow);
  const own = Math.max(
    0,
    dates.findIndex(({ id }) => id === photo.id),
  );
  const [chosen, setChosen] = useState(() => {
    const before = dates[Math.max(0, own - 1)]?.id ?? null;
    return { before, after: dates[own === 0 ? 1 : own]?.id ?? null };
  });
  const [quarters, setQuarters] = useState(0);
  const [flipped, setFlipped] = useState(false);
  const before = dates.find(({ id }) => id === chosen.before);
  const after = dates.find(({ id }) => id === chosen.after);
  const overlay = useOverlay(after?.figure?.settings.classes ?? photo.classes);
  const title = words.dates.title(photo.plot ?? '–');
  const pair = before && after && before !== after ? { before, after } : null;

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') onDone();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [onDone]);

  const choice = (which: 'before' | 'after') => (
    <FormField
      label={words.dates[which]}
      value={chosen[which] ?? ''}
      onChange={(value) => setChosen({ ...chosen, [which]: value })}
      choices={dates
        .filter(({ id }) => id !== chosen[which === 'before' ? 'after' : 'before'])
        .map(({ id, ratingDate, name }) => [id, `${dateWords(ratingDate, 'short')} · ${name}`] as const)}
    />
  );
  return (
    <Page
      title={photo.place === null ? title : `${title} · ${words.dates.place(photo.place)}`}
      action={
        <Button onClick={onDone}>
          <Icon name="back" />
          {words.dates.back}
        </Button>
      }
    >
      {!pair && <p className={styles.none}>{words.dates.none}</p>}
      {pair && places && (
        <>
          <div className={styles.tools}>
            {choice('before')}
            {choice('after')}
            <Segments
              label={words.dates.show}
              value={show}
              onChange={setShow}
              choices={[
                ['side-by-side', words.dates.sideBySide],
                ['flip', words.dates.flip],
              ]}
            />
            <label className={blocks.check}>
              <input
                type="checkbox"
                checked={overlay.on}
                onChange={(event) => overlay.setOn(event.target.checked)}
              />
              {words.dates.classes}
            </label>
            <Button onClick={() => setQuarters((quarters + 1) % 4)}>
              {words.dates.turn}
              {quarters > 0 && ` · ${words.dates.turned(quarters)}`}
            </Button>
          </div>
          <div className={show === 'flip' ? styles.one : styles.two}>
            {(show === 'side-by-side' || !flipped) && (
              <PlacePicture
                key={pair.before.id}
                places={places}
                photo={pair.before}
                quarters={0}
                overlay={overlay}
              />
            )}
            {(show === 'side-by-side' || flipped) && (
              <PlacePicture
                key={pair.after.id}
                places={places}
                photo={pair.after}
                quarters={quarters}
                overlay={overlay}
              />
            )}
          </div>
          {show === 'flip' && (
            <div className={styles.flip}>
              <Button look="main" onClick={() => setFlipped(!flipped)}>
                {words.dates.flipNow}
              </Button>
              <span role="status">{words.dates.shown((flipped ? pair.after : pair.before).ratingDate!)}</span>
            </div>
          )}
          <ChangeTable places={places} before={pair.before} after={pair.after} quarters={quarters} />
        </>
      )}
    </Page>
  );
}
