import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { formatDay } from '../../../../core/text/format.ts';
import { coverWords, reportText as text } from '../../../../core/text/report.ts';
import { RESULTS_CAUTION } from '../../../../core/text/statisticsCommands.ts';
import { EXPERIMENTAL_USE } from '../../../../core/text/trial.ts';
import { Section } from './headings.tsx';
import { PaperTable } from './PaperTable.tsx';

/** Every figure of every plot, with how it was made and its limits. */
export function AppendixSection({ report: { appendix, trial } }: { report: TrialReport }) {
  if (appendix.length === 0) return null;
  const { columns } = text;
  const blocks = appendix.some(({ block }) => block !== null);
  return (
    <Section title={text.sections.appendix}>
      <PaperTable
        caption={text.tables.appendix}
        columns={[
          { head: columns.plot, narrow: true },
          ...(blocks ? [{ head: columns.block, numeric: true }] : []),
          { head: columns.treatment, numeric: true },
          { head: columns.date, narrow: true },
          { head: columns.photo },
          { head: columns.method },
          ...trial.classes.map(({ name }) => ({ head: name.replace(/ \(.*\)$/, ''), numeric: true })),
        ]}
        rows={appendix.map(({ plot, block, treatment, ratingDate, photo, place, method, cover }, index) => ({
          key: String(index),
          cells: [
            plot,
            ...(blocks ? [block ?? text.none] : []),
            treatment,
            formatDay(ratingDate, 'short'),
            text.photoHead(photo, place),
            text.method[method],
            ...trial.classes.map(({ id }) => coverWords(cover.get(id))),
          ],
        }))}
        notes={[text.appendixHint]}
      />
    </Section>
  );
}

/** What figures were made with, so that they can be made again. */
export function VersionsSection({ report: { versions, measuring } }: { report: TrialReport }) {
  const words = text.versions;
  return (
    <Section title={text.sections.versions} className="paper-versions">
      <dl>
        <Fact name={words.program} values={[versions.software]} />
        {measuring && <Fact name={words.figuresBy} values={measuring.softwareVersions} />}
        <Fact name={words.database} values={[String(versions.database)]} />
        <Fact name={words.code} values={[versions.trialCode]} />
        {measuring && (
          <>
            <Fact
              name={words.models}
              values={measuring.models.map(({ id, taught }) =>
                taught === null ? words.startModel(id) : words.taughtModel(id),
              )}
            />
            <Fact name={words.decoders} values={measuring.decoders} />
          </>
        )}
      </dl>
    </Section>
  );
}

function Fact({ name, values }: { name: string; values: readonly string[] }) {
  return (
    <>
      <dt>{name}</dt>
      {values.map((value) => (
        <dd key={value} style={{ gridColumn: 2 }}>
          {value}
        </dd>
      ))}
    </>
  );
}

export function CautionSection({ report: { experimental } }: { report: TrialReport }) {
  return (
    <Section title={text.sections.caution} className="paper-caution">
      <p>{RESULTS_CAUTION}</p>
      <p>{text.noRecommendation}</p>
      {experimental && (
        <p>
          <strong>{EXPERIMENTAL_USE}</strong>
        </p>
      )}
    </Section>
  );
}
