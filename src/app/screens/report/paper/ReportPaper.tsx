import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { reportText as text } from '../../../../core/text/report.ts';
import { AppendixSection, CautionSection, VersionsSection } from './AppendixSections.tsx';
import { Section } from './headings.tsx';
import { MethodsSection } from './MethodsSection.tsx';
import { PicturesSection, TypicalFigure } from './PicturesSection.tsx';
import { ConductSection, MapSection, TreatmentSection, TreatmentTable } from './PlanSections.tsx';
import { PlotMapFigure } from './PlotMapFigure.tsx';
import { type PicturePlan, type Pictures, pictureKey, wantedPictures } from './pictures.ts';
import { FindingPart, ReportHead } from './ReportHead.tsx';
import { BarsFigure, mainDate, ResultsSection } from './ResultsSection.tsx';

export type PaperSize = 'a4' | 'letter';

export interface ReportPaperProps {
  readonly report: TrialReport;
  readonly length: 'long' | 'short';
  readonly paper: PaperSize;
  /** Null without photos. */
  readonly picturePlan: PicturePlan | null;
  readonly pictures: Pictures;
}

/** The report as it stands on paper. */
export function ReportPaper(props: ReportPaperProps) {
  const { report, length, paper } = props;
  return (
    <article
      className="paper"
      data-paper={paper}
      lang={text.language}
      aria-label={`${text.kind[length]}: ${report.trial.name}`}
    >
      <ReportHead report={report} kind={length} />
      <FindingPart report={report} whole={length === 'short'} />
      {length === 'long' ? <LongReport {...props} /> : <ShortReport {...props} />}
    </article>
  );
}

function LongReport({ report, picturePlan, pictures }: ReportPaperProps) {
  return (
    <>
      <Section title={text.sections.objective}>
        <p>{report.objective ?? text.noObjective}</p>
      </Section>
      <MethodsSection report={report} />
      <ConductSection report={report} />
      <TreatmentSection report={report} />
      <MapSection report={report} />
      <ResultsSection report={report} />
      {picturePlan && <PicturesSection report={report} plan={picturePlan} pictures={pictures} />}
      <AppendixSection report={report} />
      <VersionsSection report={report} />
      <CautionSection report={report} />
    </>
  );
}

/** Maps of more columns would be unreadable at half the width. */
const MOST_COLUMNS_BESIDE = 6;

/** For a field day, on one page if it can be: the finding with its caution stands above; one picture, treatments, map. */
function ShortReport({ report, picturePlan, pictures }: ReportPaperProps) {
  const declared = report.results.find(({ isDeclared }) => isDeclared);
  const hasPictures = wantedPictures(picturePlan, 'short').some((one) => pictures.has(pictureKey(one)));
  const columns = report.plots.reduce((most, { column }) => Math.max(most, column), 0);
  return (
    <>
      {picturePlan && hasPictures ? (
        <TypicalFigure report={report} plan={picturePlan} pictures={pictures} />
      ) : (
        declared && <BarsFigure report={report} result={declared} date={mainDate(report, declared)} />
      )}
      <div className={columns <= MOST_COLUMNS_BESIDE ? 'paper-beside' : undefined}>
        <TreatmentTable report={report} />
        {columns > 0 && <PlotMapFigure report={report} />}
      </div>
    </>
  );
}
