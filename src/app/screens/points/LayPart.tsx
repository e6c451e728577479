import { useEffect, useMemo, useState } from 'react';
import { MOST_POINTS, plannedPoints, type SamplingDesign } from '../../../core/point-grid/samplingDesign.ts';
import { referencePhotosText } from '../../../core/text/points.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { LARGEST_SEED } from '../../../core/trial/repeatableRandom.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { NumberField } from '../../components/NumberField.tsx';
import type { CountDraft, DrawnDate, RatingDate } from '../../session/points/pointsState.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import { CountPlanner } from './CountPlanner.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';

const text = pointsText.plan;
type Kind = SamplingDesign['kind'];
const KINDS = Object.keys(text.designs) as Kind[];
const MOST_ACROSS = 100;

const newSeed = () => crypto.getRandomValues(new Uint32Array(1))[0]!;

/** Chooses dates, photos and design, and says what they can show before anything is laid. */
export function LayPart() {
  const { points, state, dates, date, setDate, observer } = usePoints();
  const photos = useObservable(useSession().photos);
  const hasTrial = state.treatments.size > 0;
  const [chosen, setChosen] = useState<readonly RatingDate[]>([date]);
  const [kind, setKind] = useState<Kind>('jittered-grid');
  const [size, setSize] = useState({ columns: 10, rows: 10, points: 100, lines: 5, perLine: 20 });
  const [direction, setDirection] = useState<'across' | 'down'>('across');
  const [every, setEvery] = useState(false);
  const [perTreatment, setPerTreatment] = useState(hasTrial ? 4 : 8);
  const [seed, setSeed] = useState(() => String(newSeed()));
  const [drawn, setDrawn] = useState<readonly DrawnDate[]>([]);
  const [laid, setLaid] = useState<readonly DrawnDate[] | null>(null);

  const design = useMemo((): SamplingDesign => {
    switch (kind) {
      case 'simple-random':
        return { kind, points: size.points };
      case 'transect-lines':
        return { kind, lines: size.lines, pointsPerLine: size.perLine, direction };
      default:
        return { kind, columns: size.columns, rows: size.rows };
    }
  }, [kind, size, direction]);
  const seedNumber = /^\d{1,10}$/.test(seed.trim()) ? Number(seed) : Number.NaN;
  const isSeed = seedNumber <= LARGEST_SEED;
  const draft = useMemo(
    (): CountDraft => ({
      ratingDates: chosen,
      design,
      seed: isSeed ? seedNumber : 0,
      photosPerTreatment: every ? null : perTreatment,
    }),
    [chosen, design, seedNumber, isSeed, every, perTreatment],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: photos and points that come or go change what is drawn
  useEffect(() => {
    let current = true;
    points.preview(draft).then((next) => current && setDrawn(next), console.error);
    return () => {
      current = false;
    };
  }, [points, draft, state, photos]);

  const count = photosIn(drawn);
  const set = (name: keyof typeof size, label: string, most: number) => (
    <NumberField
      label={label}
      unit=""
      value={size[name]}
      least={1}
      most={most}
      onChange={(value) => value !== null && setSize({ ...size, [name]: Math.round(value) })}
    />
  );
  const lay = async () => {
    const result = await points.plan(draft, observer.trim() || null);
    setLaid(result);
    if (chosen[0] !== undefined) setDate(chosen[0]);
  };
  if (laid) {
    return (
      <section className={blocks.section}>
        <p className={blocks.lead} role="status">
          {text.laid(photosIn(laid) - laid.reduce((sum, { unplaced }) => sum + unplaced, 0))}
        </p>
        <Drawn dates={laid} draft={draft} />
        <div className={blocks.row}>
          <Button look="main" onClick={() => location.assign('#/points')}>
            {pointsText.part.count}
          </Button>
          <Button
            onClick={() => {
              setLaid(null);
              setSeed(String(newSeed()));
            }}
          >
            {text.title}
          </Button>
        </div>
      </section>
    );
  }
  return (
    <div className={styles.beside}>
      <form
        className={blocks.sections}
        onSubmit={(event) => {
          event.preventDefault();
          if (count > 0 && isSeed) void lay();
        }}
      >
        <section className={blocks.section}>
          <h2>{text.title}</h2>
          <fieldset className={blocks.choices}>
            <legend>{text.dates}</legend>
            <div className={blocks.across}>
              {dates.map((one) => (
                <label key={one ?? ''}>
                  <input
                    type="checkbox"
                    checked={chosen.includes(one)}
                    onChange={(event) =>
                      setChosen(
                        dates.filter((other) =>
                          other === one ? event.target.checked : chosen.includes(other),
                        ),
                      )
                    }
                  />
                  {pointsText.day(one)}
                </label>
              ))}
            </div>
          </fieldset>
          <fieldset className={blocks.choices}>
            <legend>{text.which}</legend>
            <div className={blocks.across}>
              <label>
                <input type="radio" name="which" checked={!every} onChange={() => setEvery(false)} />
                {hasTrial ? text.drawn : text.drawnNoTrial}
              </label>
              <label>
                <input type="radio" name="which" checked={every} onChange={() => setEvery(true)} />
                {text.every}
              </label>
            </div>
            <p className={blocks.hint}>{every ? text.everyHint : text.drawnHint}</p>
          </fieldset>
          {!every && (
            <div className={blocks.fields}>
              <NumberField
                label={hasTrial ? text.perTreatment : text.perDate}
                unit=""
                value={perTreatment}
                least={1}
                most={1000}
                onChange={(value) => value !== null && setPerTreatment(Math.round(value))}
              />
            </div>
          )}
        </section>
        <section className={blocks.section}>
          <div className={blocks.fields}>
            <FormField
              label={text.design}
              value={kind}
              onChange={(value) => setKind(value as Kind)}
              choices={KINDS.map((one) => [one, text.designs[one]] as const)}
            />
            {kind === 'simple-random' && set('points', text.points, MOST_POINTS)}
            {kind === 'transect-lines' && (
              <>
                {set('lines', text.lines, MOST_ACROSS)}
                {set('perLine', text.perLine, MOST_ACROSS)}
                <FormField
                  label={text.direction}
                  value={direction}
                  onChange={(value) => setDirection(value as typeof direction)}
                  choices={Object.entries(text.directions)}
                />
              </>
            )}
            {(kind === 'jittered-grid' || kind === 'regular-grid') && (
              <>
                {set('columns', text.columns, MOST_ACROSS)}
                {set('rows', text.rows, MOST_ACROSS)}
              </>
            )}
          </div>
          <p className={blocks.hint}>{text.designHint[kind]}</p>
          <div className={styles.withButton}>
            <FormField
              label={text.seed}
              value={seed}
              onChange={setSeed}
              kind="digits"
              problem={isSeed ? null : text.seedProblem}
            />
            <Button onClick={() => setSeed(String(newSeed()))}>{text.newSeed}</Button>
          </div>
          <p className={blocks.hint}>{text.seedHint}</p>
        </section>
        <section className={blocks.section}>
          {chosen.length === 0 ? (
            <p className={blocks.trouble}>{text.noDates}</p>
          ) : (
            <Drawn dates={drawn} draft={draft} />
          )}
          {chosen.length > 0 && count === 0 && <p className={blocks.trouble}>{text.nothing}</p>}
          <Button look="main" large type="submit" className={blocks.fit} disabled={count === 0 || !isSeed}>
            {text.lay}
          </Button>
        </section>
      </form>
      <CountPlanner design={design} photoCount={count} total={count * plannedPoints(design)} dates={chosen} />
    </div>
  );
}

const photosIn = (dates: readonly DrawnDate[]): number =>
  dates.reduce((sum, { drawn }) => sum + drawn.reduce((inner, { photos }) => inner + photos.length, 0), 0);

/** What would be drawn, or was, in words. */
function Drawn({ dates, draft }: { dates: readonly DrawnDate[]; draft: CountDraft }) {
  const asked = draft.photosPerTreatment;
  return (
    <ul className={styles.notes}>
      {dates.flatMap(({ ratingDate, drawn, already, unready, unplaced }) => [
        <li key={`${ratingDate}`}>
          <strong>{pointsText.day(ratingDate)}</strong>
        </li>,
        ...drawn.map((one) => (
          <li key={`${ratingDate} ${one.treatment}`}>
            {one.treatment !== '' && asked !== null
              ? referencePhotosText(one, asked)
              : one.treatment !== ''
                ? text.ofTreatment(one.treatment, one.photos.length)
                : text.ofDate(one.photos.length, one.drawnFrom, [
                    ...(one.withStrokes > 0 ? [pointsText.count.withStrokes(one.withStrokes)] : []),
                    ...(one.inReviewQueue > 0 ? [pointsText.count.inQueue(one.inReviewQueue)] : []),
                  ])}
          </li>
        )),
        ...(already > 0 ? [<li key={`${ratingDate} already`}>{text.already(already)}</li>] : []),
        ...(unready > 0 ? [<li key={`${ratingDate} unready`}>{text.unready(unready)}</li>] : []),
        ...(unplaced > 0 ? [<li key={`${ratingDate} unplaced`}>{text.unplaced(unplaced)}</li>] : []),
      ])}
    </ul>
  );
}
