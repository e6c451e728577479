import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { confidencePercent } from '../../../../core/statistics/confidencePercent.ts';
import { compareText, variableWords } from '../../../../core/text/compare.ts';
import { findingSentences } from '../../../../core/text/finding.ts';
import { formatDay } from '../../../../core/text/format.ts';
import { copyWords, noFindingText, reportText as text } from '../../../../core/text/report.ts';
import { RESULTS_CAUTION } from '../../../../core/text/statisticsCommands.ts';
import { EXPERIMENTAL_USE } from '../../../../core/text/trial.ts';
import { Heading } from './headings.tsx';

/** Title, what the trial was of, and what of it this copy holds. */
export function ReportHead({ report, kind }: { report: TrialReport; kind: 'long' | 'short' }) {
  const { trial, madeAt, versions } = report;
  const { site, turf, sowing } = trial;
  const under = [
    site.name,
    turf.species,
    ...(sowing.date === null ? [] : [`${text.trial.sowing.toLowerCase()} ${formatDay(sowing.date)}`]),
  ];
  return (
    <header className="paper-head">
      <p className="paper-kind">{text.kind[kind]}</p>
      <Heading below={0} className="paper-title">
        {trial.name}
      </Heading>
      <p className="paper-sub">{under.join(' · ')}</p>
      <p className="paper-made">{text.made(madeAt, versions.software)}</p>
      {copyWords(report).map((sentence) => (
        <p key={sentence} className="paper-copy">
          {sentence}
        </p>
      ))}
    </header>
  );
}

interface FindingPartProps {
  readonly report: TrialReport;
  /** Whether all that has to be said stands here, for want of a section of its own. */
  readonly whole: boolean;
}

/** What the declared comparison came to, and what a reader has to bear in mind. */
export function FindingPart({ report, whole }: FindingPartProps) {
  const { finding, declared, trial, experimental, ratedVariables } = report;
  const caution = (
    <p className="paper-small">
      {RESULTS_CAUTION} {whole && `${text.noRecommendation} `}
      {experimental && <strong>{EXPERIMENTAL_USE}</strong>}
    </p>
  );
  if (!finding || !declared || !finding.ok) {
    return (
      <section className="paper-finding">
        <Heading below={1}>{text.finding}</Heading>
        <p className="paper-main">{!finding ? text.notDeclared : !finding.ok && noFindingText(finding)}</p>
        {caution}
      </section>
    );
  }
  const { analysis } = declared;
  const words = variableWords(analysis.variable, analysis.classes ?? trial.classes, ratedVariables);
  const sentences = findingSentences(finding.finding, words);
  const shown = sentences.filter(({ kind }) => kind === 'shown');
  const main = shown.length > 0 ? shown : sentences.slice(0, 1);
  const rest = sentences.filter((sentence) => !main.includes(sentence));
  return (
    <section className="paper-finding">
      <Heading below={1}>{text.finding}</Heading>
      {main.map((sentence) => (
        <p key={sentence.text} className="paper-main">
          {sentence.text}
        </p>
      ))}
      <ul className="paper-rest">
        {rest.map((sentence) => (
          <li key={sentence.text}>{sentence.text}</li>
        ))}
      </ul>
      {shown.length > 0 && analysis.transform === 'none' && (
        <p className="paper-small">
          {compareText.finding.confidence(String(confidencePercent(analysis.alpha)))}
        </p>
      )}
      {caution}
    </section>
  );
}
