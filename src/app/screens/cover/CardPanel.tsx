import { useState } from 'react';
import type { CardBalance } from '../../../core/colour/cardBalance.ts';
import { area as words } from '../../../core/text/area.ts';
import { Button } from '../../components/Button.tsx';
import { NumberField } from '../../components/NumberField.tsx';
import styles from './FramePanel.module.css';
import type { AreaControl } from './useArea.ts';
import type { Marking } from './useMarking.ts';

const FARTHEST_PX = 100_000;

/** The grey card: found, confirmed, marked by hand or taken away, and what balancing by it does. */
export function CardPanel({ control, marking }: { control: AreaControl; marking: Marking }) {
  const { area, check } = control;
  if (!area) return null;
  const { neutral, neutralBy } = area;
  const { drawing, draft } = marking;
  const found = check?.greyCard?.found ? check.greyCard : null;
  /** The finder's own ignored area goes with a card that is none; the card itself stays left out otherwise. */
  const withoutFinding = () =>
    control.change((before) => ({
      ...before,
      neutral: null,
      neutralBy: 'person',
      ignored: before.ignored.filter((polygon) => JSON.stringify(polygon) !== JSON.stringify(found?.outline)),
    }));
  return (
    <section
      className={drawing === 'card' ? `${styles.panel} ${styles.first}` : styles.panel}
      aria-label={words.card}
    >
      <header>
        <div>
          <h2>{words.card}</h2>
          <p className={styles.soft}>
            {neutral
              ? neutralBy && words.cardBy[neutralBy]
              : neutralBy
                ? words.cardTakenAway
                : check?.greyCard
                  ? words.cardNone
                  : words.cardNotLooked}
          </p>
        </div>
        {drawing === 'card' ? (
          <Button onClick={marking.cancel}>{words.cancel}</Button>
        ) : (
          <Button onClick={() => marking.begin('card')}>{words.cardMark}</Button>
        )}
      </header>
      {drawing === 'card' && <p role="status">{draft.length === 0 ? words.cardHint : words.cardSecond}</p>}
      {neutral && check?.balance && <Balance balance={check.balance} />}
      {neutral && check && !check.balance && <p className={styles.wrong}>{words.cardUnusable}</p>}
      {neutral && (
        <div className={styles.actions}>
          {neutralBy === 'finder' && (
            <>
              <Button
                look="main"
                onClick={() => control.change((before) => ({ ...before, neutralBy: 'finder-confirmed' }))}
              >
                {words.confirm}
              </Button>
              <Button onClick={withoutFinding}>{words.cardNotOne}</Button>
            </>
          )}
          {neutralBy !== 'finder' && (
            <Button
              onClick={() => control.change((before) => ({ ...before, neutral: null, neutralBy: 'person' }))}
            >
              {words.cardTake}
            </Button>
          )}
        </div>
      )}
      {(neutral || drawing === 'card') && (
        <details className={styles.details}>
          <summary>{words.cardFields}</summary>
          <CardFields key={String(neutral)} neutral={neutral} onChange={marking.setCard} />
        </details>
      )}
    </section>
  );
}

type Rectangle = readonly [number, number, number, number];

/** The card's rectangle typed: for those who do not press on the photo. */
function CardFields({
  neutral,
  onChange,
}: {
  neutral: Rectangle | null;
  onChange: (rectangle: Rectangle) => void;
}) {
  const [typed, setTyped] = useState<Rectangle>(neutral ?? [0, 0, 50, 50]);
  return (
    <div className={styles.fields}>
      {words.cardSides.map((side, index) => (
        <NumberField
          key={side}
          label={words.cardField(index)}
          unit="px"
          value={typed[index]!}
          least={index < 2 ? 0 : 1}
          most={FARTHEST_PX}
          onChange={(value) =>
            setTyped(typed.map((old, at) => (at === index ? value! : old)) as unknown as Rectangle)
          }
        />
      ))}
      <Button className={styles.wide} onClick={() => onChange(typed)}>
        {words.cardSet}
      </Button>
    </div>
  );
}

const rgb = (colour: CardBalance['before']) => `rgb(${colour.join(' ')})`;
/** Ink that can be read on a patch of this grey. */
const inkOn = ([, green]: CardBalance['before']) => (green > 120 ? '#000' : '#fff');

function Balance({ balance }: { balance: CardBalance }) {
  const { before, after, gains, capped } = balance;
  const text = words.balance;
  return (
    <>
      <div className={styles.swatches}>
        <span style={{ background: rgb(before), color: inkOn(before) }}>{text.swatchBefore}</span>
        <span style={{ background: rgb(after), color: inkOn(after) }}>{text.swatchAfter}</span>
      </div>
      <table className={styles.balance}>
        <caption className="visually-hidden">{text.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{text.channel}</th>
            <th scope="col">{text.before}</th>
            <th scope="col">{text.gain}</th>
            <th scope="col">{text.after}</th>
          </tr>
        </thead>
        <tbody>
          {text.channels.map((channel, index) => (
            <tr key={channel}>
              <th scope="row">{channel}</th>
              <td>{before[index]}</td>
              <td>{text.gainValue(gains[index]!)}</td>
              <td>{after[index]}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {capped && <p className={styles.wrong}>{text.capped}</p>}
    </>
  );
}
