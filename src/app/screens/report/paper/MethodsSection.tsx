import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { compareText, variableWords } from '../../../../core/text/compare.ts';
import { formatDay, formatDecimals } from '../../../../core/text/format.ts';
import { quantityWords, reportText as text } from '../../../../core/text/report.ts';
import { designWords, methodsParagraphs } from '../../../../core/text/reportMethods.ts';
import { Heading, Section } from './headings.tsx';
import { PaperTable } from './PaperTable.tsx';

const factColumns = [{ head: text.columns.item }, { head: text.columns.record }];

/** How it was done, written from what is recorded. */
export function MethodsSection({ report }: { report: TrialReport }) {
  return (
    <Section title={text.sections.methods}>
      {methodsParagraphs(report).map(({ title, sentences }) => (
        <div key={title} className="paper-paragraph">
          <Heading below={2}>{title}</Heading>
          <p>{sentences.join(' ')}</p>
        </div>
      ))}
      <TrialTable report={report} />
      <DeclaredTable report={report} />
      <CorrectionTable report={report} />
      <AgreementTable report={report} />
      <Deviations report={report} />
    </Section>
  );
}

function TrialTable({ report }: { report: TrialReport }) {
  const { trial, weather } = report;
  const { site, turf, sowing, mowing, plotSize } = trial;
  const words = text.trial;
  const written = (value: string | null | undefined) => value?.trim() || null;
  const mown = [mowing.heightMm === null ? null : text.mowingHeight(mowing.heightMm), mowing.notes.trim()];
  const all: [string, string | null][] = [
    [words.name, `${trial.name} (${trial.code})`],
    [words.site, site.name],
    [
      words.coordinates,
      site.latitudeDegrees === null || site.longitudeDegrees === null
        ? null
        : text.coordinates(site.latitudeDegrees, site.longitudeDegrees),
    ],
    [words.siteNotes, written(site.notes)],
    [words.turf, turf.species],
    [words.cultivar, written(turf.cultivar)],
    [words.sownOver, written(turf.sownOver)],
    [words.sowing, sowing.date && formatDay(sowing.date)],
    [words.rate, sowing.rate && quantityWords(sowing.rate)],
    [words.mowing, mown.filter(Boolean).join('; ') || null],
    [words.soil, written(trial.soil)],
    [words.irrigation, written(trial.irrigation)],
    [words.design, designWords(report)],
    [words.plotSize, plotSize && text.metres(plotSize.grossWidthMm, plotSize.grossLengthMm)],
    [words.rated, plotSize && text.metres(plotSize.netWidthMm, plotSize.netLengthMm)],
    [words.weather, weather && text.weather(weather.days, weather.first, weather.last)],
  ];
  const unknown = all.filter(([, value]) => value === null).map(([name]) => name);
  const facts = all.flatMap(([name, value]): [string, string][] => (value === null ? [] : [[name, value]]));
  if (unknown.length > 0) facts.push([text.notRecordedHead, text.unknown(unknown)]);
  return <Facts caption={text.tables.trial} facts={facts} />;
}

function Facts({ caption, facts }: { caption: string; facts: readonly (readonly [string, string])[] }) {
  return (
    <PaperTable
      facts
      caption={caption}
      columns={factColumns}
      rows={facts.map(([name, value]) => ({ key: name, cells: [name, value] }))}
    />
  );
}

function DeclaredTable({ report }: { report: TrialReport }) {
  const { declared, ratedVariables } = report;
  if (!declared) return null;
  const { analysis } = declared;
  const words = variableWords(analysis.variable, analysis.classes, ratedVariables);
  return <Facts caption={text.tables.declared} facts={compareText.declared.lines(analysis, words)} />;
}

function CorrectionTable({ report: { corrections, trial } }: { report: TrialReport }) {
  if (!corrections || corrections.byTreatment.length === 0 || corrections.lookedAt === 0) return null;
  const { columns } = text;
  const byClass = trial.classes.slice(0, corrections.byTreatment[0]!.meanNetChange.length);
  return (
    <PaperTable
      caption={text.tables.corrections}
      columns={[
        { head: columns.treatment },
        { head: columns.photos, numeric: true },
        { head: columns.lookedAt, numeric: true },
        { head: columns.corrected, numeric: true },
        { head: columns.changed, numeric: true },
        ...byClass.map(({ name }) => ({ head: text.moved(name), numeric: true })),
      ]}
      rows={corrections.byTreatment.map((own) => ({
        key: own.treatment,
        cells: [
          own.treatment,
          own.photos,
          own.reviewedPhotos,
          own.correctedPhotos,
          formatDecimals(100 * own.meanChangedFraction, 1),
          ...own.meanNetChange.map((change) => text.signed(100 * change)),
        ],
      }))}
      notes={[text.movedHint]}
    />
  );
}

function AgreementTable({ report: { points, trial } }: { report: TrialReport }) {
  if (!points?.agreement) return null;
  const { classes, photos } = points.agreement;
  if (photos < 2) return null;
  const names = new Map(trial.classes.map(({ id, name }) => [id, name]));
  const { columns } = text;
  const between = ([low, high]: readonly [number, number]) =>
    compareText.means.between(text.signed(low), text.signed(high));
  return (
    <PaperTable
      caption={text.tables.agreement}
      columns={[
        { head: columns.class },
        { head: columns.photos, numeric: true },
        { head: columns.meanDifference, numeric: true },
        { head: columns.limits, numeric: true },
      ]}
      rows={classes.map(({ classId, difference }) => ({
        key: classId,
        cells: [
          names.get(classId) ?? classId,
          difference.photos,
          difference.limits
            ? `${text.signed(difference.limits.meanDifference)} (${between(difference.limits.meanDifferenceInterval)})`
            : text.none,
          difference.limits ? between(difference.limits.limits) : text.none,
        ],
      }))}
      notes={[text.agreementHint]}
    />
  );
}

function Deviations({ report: { deviations, exclusions } }: { report: TrialReport }) {
  const { columns } = text;
  if (deviations.length + exclusions.length === 0) return <p>{text.noDeviations}</p>;
  const day = (date: string | null, otherwise: string) =>
    date === null ? otherwise : formatDay(date, 'short');
  return (
    <>
      {deviations.length > 0 && (
        <PaperTable
          caption={text.tables.deviations}
          columns={[
            { head: columns.day, narrow: true },
            { head: columns.plot },
            { head: columns.what },
            { head: columns.effect },
            { head: columns.reason },
            { head: columns.by },
          ]}
          rows={deviations.map(({ id, plot, date, what, effect, reason, by }) => ({
            key: id,
            cells: [day(date, text.notRecorded), plot ?? text.wholeTrial, what, effect, reason, by],
          }))}
        />
      )}
      {exclusions.length > 0 && (
        <PaperTable
          caption={text.tables.exclusions}
          columns={[
            { head: columns.plot },
            { head: columns.date, narrow: true },
            { head: columns.variable },
            { head: columns.reason },
            { head: columns.by },
          ]}
          rows={exclusions.map(({ id, plot, ratingDate, variable, reason, by }) => ({
            key: id,
            cells: [plot, day(ratingDate, text.allDates), variable ?? text.allVariables, reason, by],
          }))}
        />
      )}
    </>
  );
}
