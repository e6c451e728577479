import { useEffect, useMemo, useState } from 'react';
import type { ReportSource } from '../../../core/report/reportSource.ts';
import { reportableDates, type TrialReport, trialReport } from '../../../core/report/trialReport.ts';
import { compareText } from '../../../core/text/compare.ts';
import { reportText } from '../../../core/text/report.ts';
import { Notice } from '../../components/Notice.tsx';
import { isBoolean, oneOf, usePreference } from '../../components/usePreference.ts';
import type { Reporting } from '../../session/report.ts';
import { usePhotos } from '../../session/useSession.tsx';
import { CopyChoices } from './CopyChoices.tsx';
import { MissingParts } from './MissingParts.tsx';
import { ObjectiveField } from './ObjectiveField.tsx';
import { TitleLevelProvider } from './paper/headings.tsx';
import './paper/paper.css';
import { pageWords } from './paper/pageWords.ts';
import { picturePlan, wantedPictures } from './paper/pictures.ts';
import { type PaperSize, ReportPaper, type ReportPaperProps } from './paper/ReportPaper.tsx';
import styles from './ReportScreen.module.css';
import { SaveReport } from './SaveReport.tsx';
import { usePictures } from './usePictures.ts';

const text = reportText.screen;

interface ReportDeskProps {
  readonly reporting: Reporting;
  readonly source: ReportSource;
  readonly working: boolean;
  readonly trouble: string | null;
}

/** What this copy holds, beside the copy itself. */
export function ReportDesk({ reporting, source, working, trouble }: ReportDeskProps) {
  const [length, setLength] = usePreference<'long' | 'short'>(
    'report.length',
    'long',
    oneOf('long', 'short'),
  );
  const [paper, setPaper] = usePreference<PaperSize>('report.paper', 'a4', oneOf('a4', 'letter'));
  const [withNames, setWithNames] = usePreference('report.names', true, isBoolean);
  const [withPhotos, setWithPhotos] = usePreference('report.photos', true, isBoolean);
  const [leftOut, setLeftOut] = useState<readonly string[]>([]);
  const photos = usePhotos();
  const dates = reportableDates(source);
  const shown = dates.filter((date) => !leftOut.includes(date));
  const all = shown.length === dates.length;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same dates are a new list at every render
  const report = useMemo(
    () => trialReport(source, { ratingDates: all ? null : shown, withNames }),
    [source, shown.join(), all, withNames],
  );
  const plan = useMemo(() => (withPhotos ? picturePlan(report, photos) : null), [withPhotos, report, photos]);
  const prepared = usePictures(wantedPictures(plan, length));
  const ready = prepared.done === prepared.all && !working;
  usePageWords(report);
  const props: ReportPaperProps = { report, length, paper, picturePlan: plan, pictures: prepared.pictures };
  return (
    <div className={styles.desk}>
      <div className={styles.side}>
        <div className={styles.choices}>
          <CopyChoices
            {...{ length, setLength, paper, setPaper, withNames, setWithNames, withPhotos, setWithPhotos }}
            dates={dates}
            leftOut={leftOut}
            setLeftOut={setLeftOut}
          />
          <SaveReport paper={props} ready={ready} />
          <p className={styles.hint} role="status">
            {working && trouble === null
              ? text.comparing
              : prepared.done < prepared.all
                ? text.preparing(prepared.done, prepared.all)
                : ''}
          </p>
          {prepared.failed > 0 && <Notice>{text.noPicture(prepared.failed)}</Notice>}
          {trouble !== null && (
            <Notice kind="trouble">
              <p>{compareText.failed(trouble)}</p>
            </Notice>
          )}
        </div>
        <div className={styles.more}>
          <MissingParts report={report} unreadable={source.declarations.at(-1)?.declared === null} />
          <ObjectiveField reporting={reporting} objective={report.objective} />
        </div>
      </div>
      <div className={styles.preview}>
        <TitleLevelProvider level={2}>
          <ReportPaper {...props} />
        </TitleLevelProvider>
      </div>
    </div>
  );
}

/** Words in the margins of printed pages: margins take properties of the root element only. */
function usePageWords(report: TrialReport): void {
  const words = JSON.stringify(pageWords(report));
  useEffect(() => {
    const { style } = document.documentElement;
    const entries = Object.entries(JSON.parse(words) as Record<string, string>);
    for (const [name, value] of entries) style.setProperty(name, value);
    return () => {
      for (const [name] of entries) style.removeProperty(name);
    };
  }, [words]);
}
