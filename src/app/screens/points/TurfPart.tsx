import { useState } from 'react';
import { estimatePlotCover } from '../../../core/point-grid/clusteredEstimate.ts';
import { estimateFrameCover } from '../../../core/point-grid/pointEstimate.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import { plotKey } from '../../../core/trial/plot.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { shortName } from '../../components/shortName.ts';
import type { FieldCountRecord } from '../../session/points.ts';
import { EstimateTable } from './EstimateTable.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { WhichDate } from './WhichDate.tsx';

const text = pointsText.turf;
const LARGEST_COUNT = 10_000;

/** A whole number as typed; NaN where it is none. Left empty it is 0: nothing was hit. */
const countOf = (typed: string): number =>
  typed.trim() === '' ? 0 : /^\d+$/.test(typed.trim()) ? Number(typed) : Number.NaN;

/** Counts made in the frame on the turf itself, typed in. */
export function TurfPart() {
  const { points, state, date, observer, setObserver } = usePoints();
  const { classes, treatments } = state;
  const empty = { plot: '', place: '', design: '', indeterminate: '' };
  const [form, setForm] = useState(empty);
  const [hits, setHits] = useState<Readonly<Record<string, string>>>({});
  const [problems, setProblems] = useState<Readonly<Record<string, string>>>({});
  const [said, setSaid] = useState('');
  const own = state.fieldCounts.filter(({ ratingDate }) => ratingDate === date);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });

  const add = async () => {
    const plot = form.plot.trim();
    const place = countOf(form.place);
    const counts = classes.map(({ id }) => ({ classId: id, points: countOf(hits[id] ?? '') }));
    const indeterminate = countOf(form.indeterminate);
    const all = [...counts.map((count) => count.points), indeterminate];
    const total = all.reduce((sum, count) => sum + count, 0);
    const found = {
      ...(plot === '' && { plot: text.problem.plot }),
      ...(plot !== '' &&
        treatments.size > 0 &&
        !treatments.has(plotKey(plot)) && { plot: text.problem.unknownPlot(plot) }),
      ...(observer.trim() === '' && { observer: text.problem.observer }),
      ...(!(total >= 1 && all.every((count) => count <= LARGEST_COUNT)) && { hits: text.problem.hits }),
      ...(Number.isNaN(place) && { place: text.placeHint }),
      ...(date === null && { date: text.problem.date }),
    };
    setProblems(found);
    if (Object.keys(found).length > 0 || date === null) return;
    await points.addFieldCount({
      plot,
      place: place === 0 ? null : place,
      ratingDate: date,
      observer: observer.trim(),
      hits: counts,
      indeterminate,
      design: form.design.trim(),
    });
    setForm({ ...empty, design: form.design });
    setHits({});
    setSaid(text.added(plot, total));
  };
  return (
    <div className={blocks.sections}>
      <form
        className={blocks.section}
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <h2>{text.title}</h2>
        <p className={styles.soft}>{text.hint}</p>
        <div className={blocks.fields}>
          <WhichDate />
          <FormField
            label={pointsText.observer}
            value={observer}
            longest={60}
            onChange={setObserver}
            problem={problems.observer ?? null}
          />
          <FormField
            label={text.plot}
            value={form.plot}
            onChange={set('plot')}
            problem={problems.plot ?? null}
          />
          <FormField
            label={text.place}
            value={form.place}
            onChange={set('place')}
            kind="digits"
            hint={text.placeHint}
            problem={problems.place ?? null}
          />
          <FormField
            label={text.design}
            value={form.design}
            onChange={set('design')}
            hint={text.designExample}
          />
        </div>
        <div className={blocks.fields}>
          {classes.map(({ id, name }) => (
            <FormField
              key={id}
              label={text.hits(shortName(name))}
              value={hits[id] ?? ''}
              onChange={(value) => setHits({ ...hits, [id]: value })}
              kind="digits"
            />
          ))}
          <FormField
            label={text.cannotTell}
            value={form.indeterminate}
            onChange={set('indeterminate')}
            kind="digits"
          />
        </div>
        {problems.hits && (
          <p className={blocks.trouble} role="alert">
            {problems.hits}
          </p>
        )}
        {problems.date && (
          <p className={blocks.trouble} role="alert">
            {problems.date}
          </p>
        )}
        <Button look="main" type="submit" className={blocks.fit}>
          {text.add}
        </Button>
        <p role="status">{said}</p>
      </form>
      {own.length === 0 ? (
        <p className={styles.soft}>{text.none}</p>
      ) : (
        <TurfCounts
          counts={own}
          onRemove={(id) => void points.removeFieldCount(id, observer.trim() || null)}
        />
      )}
    </div>
  );
}

interface TurfCountsProps {
  readonly counts: readonly FieldCountRecord[];
  readonly onRemove: (id: string) => void;
}

function TurfCounts({ counts, onRemove }: TurfCountsProps) {
  const { points, state } = usePoints();
  const { classIds } = points;
  const named = counts.map((count) => ({
    ...count,
    name: `${count.place === null ? count.plot : `${count.plot}/${count.place}`}, ${count.observer}`,
    counted: {
      hits: classIds.map((id) => count.hits.find(({ classId }) => classId === id)?.points ?? 0),
      indeterminate: count.indeterminate,
      unlabelled: 0,
      outside: 0,
    },
  }));
  const byPlot = [...groupBy(named, ({ plot, observer }) => `${plotKey(plot)}, ${observer}`)].filter(
    ([, own]) => own.length > 1,
  );
  return (
    <section className={blocks.section} aria-labelledby="points-turf">
      <h2 id="points-turf">{text.listTitle}</h2>
      <EstimateTable
        caption={pointsText.results.target.frame}
        what={text.plot}
        classes={state.classes}
        estimates={named.map(({ id, name, counted }, index) => ({
          name: named.findIndex((one) => one.name === name) === index ? name : `${name} (${id.slice(0, 4)})`,
          estimate: estimateFrameCover(counted),
        }))}
        together={false}
      />
      {byPlot.length > 0 && (
        <EstimateTable
          caption={pointsText.results.target.plot}
          what={text.plot}
          classes={state.classes}
          estimates={byPlot.map(([name, own]) => ({
            name,
            estimate: estimatePlotCover(own.map(({ counted }) => counted)),
          }))}
          together={false}
        />
      )}
      <div className={blocks.row}>
        {named.map(({ id, name }) => (
          <Button key={id} look="quiet" onClick={() => onRemove(id)}>
            {text.remove(name)}
          </Button>
        ))}
      </div>
    </section>
  );
}
