import type { ReactNode } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { reportText } from '../../../core/text/report.ts';
import blocks from '../../components/blocks.module.css';
import { Segments } from '../../components/Segments.tsx';
import type { PaperSize } from './paper/ReportPaper.tsx';
import styles from './ReportScreen.module.css';

const text = reportText.screen;

interface CopyChoicesProps {
  readonly length: 'long' | 'short';
  readonly setLength: (length: 'long' | 'short') => void;
  readonly paper: PaperSize;
  readonly setPaper: (paper: PaperSize) => void;
  readonly withNames: boolean;
  readonly setWithNames: (withNames: boolean) => void;
  readonly withPhotos: boolean;
  readonly setWithPhotos: (withPhotos: boolean) => void;
  readonly dates: readonly string[];
  readonly leftOut: readonly string[];
  readonly setLeftOut: (leftOut: readonly string[]) => void;
}

/** What a copy of the report holds. */
export function CopyChoices(props: CopyChoicesProps) {
  const { length, setLength, paper, setPaper, withNames, setWithNames, withPhotos, setWithPhotos } = props;
  const { dates, leftOut, setLeftOut } = props;
  return (
    <section className={styles.group} aria-label={text.choices}>
      <h2>{text.choices}</h2>
      <Choice label={text.length}>
        <Segments
          label={text.length}
          value={length}
          choices={[
            ['long', text.lengths.long],
            ['short', text.lengths.short],
          ]}
          onChange={setLength}
        />
      </Choice>
      <Choice label={text.names}>
        <Segments
          label={text.names}
          value={withNames ? 'names' : 'numbers'}
          choices={[
            ['names', text.nameChoices.names],
            ['numbers', text.nameChoices.numbers],
          ]}
          onChange={(choice) => setWithNames(choice === 'names')}
        />
      </Choice>
      <Choice label={text.paper}>
        <Segments
          label={text.paper}
          value={paper}
          choices={[
            ['a4', text.papers.a4],
            ['letter', text.papers.letter],
          ]}
          onChange={setPaper}
        />
      </Choice>
      {dates.length > 1 && (
        <fieldset className={styles.group}>
          <legend className={styles.label}>{text.dates}</legend>
          {dates.map((date) => {
            const isShown = !leftOut.includes(date);
            // the last one stays: a report of no date is none
            const isLast = isShown && dates.length - leftOut.length === 1;
            return (
              <label key={date} className={blocks.check}>
                <input
                  type="checkbox"
                  checked={isShown}
                  disabled={isLast}
                  onChange={() =>
                    setLeftOut(isShown ? [...leftOut, date] : leftOut.filter((one) => one !== date))
                  }
                />
                <span>{formatDay(date)}</span>
              </label>
            );
          })}
        </fieldset>
      )}
      <div>
        <label className={blocks.check}>
          <input
            type="checkbox"
            checked={withPhotos}
            aria-describedby="report-photos"
            onChange={(event) => setWithPhotos(event.target.checked)}
          />
          <span>{text.photos}</span>
        </label>
        <p id="report-photos" className={styles.hint}>
          {text.photosHint}
        </p>
      </div>
    </section>
  );
}

/** A choice with its name in sight; the group itself carries it for those who do not see. */
function Choice({ label, children }: { label: string; children: ReactNode }) {
  return (
    <div className={styles.group}>
      <span className={styles.label} aria-hidden="true">
        {label}
      </span>
      {children}
    </div>
  );
}
