import type { TrialReport } from '../../../../core/report/trialReport.ts';
import {
  conductWords,
  equipmentWords,
  levelsWords,
  productWords,
  progressWords,
  reportText as text,
  timingWords,
  treatmentWords,
} from '../../../../core/text/report.ts';
import { APPLICATION_CAUTION, EXPERIMENTAL_USE, listed } from '../../../../core/text/trial.ts';
import { Section } from './headings.tsx';
import { PaperTable } from './PaperTable.tsx';
import { PlotMapFigure } from './PlotMapFigure.tsx';

const { columns } = text;

/** What was done, by day. */
export function ConductSection({ report: { conduct } }: { report: TrialReport }) {
  return (
    <Section title={text.sections.conduct}>
      {conduct.length === 0 ? (
        <p>{text.noConduct}</p>
      ) : (
        <PaperTable
          caption={text.tables.conduct}
          columns={[
            { head: columns.day, narrow: true },
            { head: columns.what },
            { head: columns.by, widthMm: 22 },
            { head: columns.conditions, widthMm: 36 },
            { head: columns.otherwise, widthMm: 32 },
          ]}
          rows={conduct.map(conductWords).map(({ day, what, by, conditions, deviations }, index) => ({
            key: String(index),
            cells: [day, what, by, conditions, deviations],
          }))}
        />
      )}
    </Section>
  );
}

/** Treatments with what was planned and done for them. */
export function TreatmentSection({ report }: { report: TrialReport }) {
  return (
    <Section title={text.sections.treatments}>
      <TreatmentTable report={report} />
      <ApplicationTable report={report} />
    </Section>
  );
}

export function TreatmentTable({ report: { treatments, withNames } }: { report: TrialReport }) {
  const factorial = treatments.some(({ levels }) => levels && Object.keys(levels).length > 0);
  const noted = treatments.some(({ notes }) => notes !== null);
  return (
    <PaperTable
      caption={text.tables.treatments}
      columns={[
        { head: columns.id, narrow: true },
        { head: columns.treatment },
        ...(factorial ? [{ head: columns.levels }] : []),
        { head: columns.applications },
        ...(noted ? [{ head: columns.notes }] : []),
      ]}
      rows={treatments.map((treatment) => ({
        key: String(treatment.number),
        strong: treatment.untreatedControl !== null,
        cells: [
          treatment.number,
          treatmentWords(treatment),
          ...(factorial ? [levelsWords(treatment.levels)] : []),
          text.doneOf(treatment.applications.done, treatment.applications.total),
          ...(noted ? [treatment.notes ?? text.none] : []),
        ],
      }))}
      notes={withNames ? [] : [text.copyWithoutNames]}
    />
  );
}

function ApplicationTable({ report: { applications, withNames, experimental } }: { report: TrialReport }) {
  if (applications.length === 0) return <p>{text.noApplications}</p>;
  const equipped = applications.some((application) => equipmentWords(application) !== null);
  return (
    <PaperTable
      caption={text.tables.applications}
      columns={[
        { head: columns.id, narrow: true },
        { head: columns.treatment },
        ...(withNames ? [{ head: columns.what }, { head: columns.products }] : []),
        { head: columns.planned, narrow: true },
        { head: columns.state, widthMm: 34 },
        ...(equipped ? [{ head: columns.how }] : []),
      ]}
      rows={applications.map((application) => ({
        key: application.id,
        cells: [
          application.id,
          listed(application.treatments),
          ...(withNames
            ? [
                application.description,
                application.products?.map(productWords).join('; ') || text.notRecorded,
              ]
            : []),
          timingWords(application),
          progressWords(application),
          ...(equipped ? [equipmentWords(application) ?? text.notRecorded] : []),
        ],
      }))}
      notes={[...(experimental ? [EXPERIMENTAL_USE] : []), APPLICATION_CAUTION]}
    />
  );
}

export function MapSection({ report }: { report: TrialReport }) {
  return (
    <Section title={text.sections.map}>
      {report.plots.length === 0 ? <p>{text.noPlots}</p> : <PlotMapFigure report={report} />}
    </Section>
  );
}
