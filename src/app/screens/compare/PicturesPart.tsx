import { useState } from 'react';
import { variableKey } from '../../../core/statistics/declaredAnalysis.ts';
import { typicalPair } from '../../../core/statistics/typicalPair.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import { plotKey } from '../../../core/trial/plot.ts';
import type { ChartTreatment } from '../../charts/chartTypes.ts';
import { PhotoMatrix } from '../../charts/PhotoMatrix.tsx';
import { PhotoPair } from '../../charts/PhotoPair.tsx';
import { PlotValueMap } from '../../charts/PlotValueMap.tsx';
import { chartTreatments, quantityOf } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import { Segments } from '../../components/Segments.tsx';
import { SelectField } from '../../components/SelectField.tsx';
import { oneOf, usePreference } from '../../components/usePreference.ts';
import type { VariableComparison } from '../../session/comparison.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import { type ComparedTrial, comparisonOf, wordsOf } from './comparedTrial.ts';
import { MaskPicture } from './MaskPicture.tsx';
import { NoValues } from './NoValues.tsx';
import { PhotoPicture } from './PhotoPicture.tsx';
import type { PartProps } from './partProps.ts';
import { ShownFields } from './ShownFields.tsx';
import { type CutPhoto, useCutPhoto } from './useCutPhoto.ts';
import { shownDate, shownVariable } from './useDateShown.ts';
import { useWanted } from './useWanted.ts';

const text = compareText.pictures;

/** The plots themselves: an untreated beside a treated one, values on the ground, photos by plot and date. */
export function PicturesPart({ compared, shown }: PartProps) {
  const variable = shownVariable(compared, shown);
  useWanted(compared, [variable]);
  const comparison = comparisonOf(compared, variable);
  const date = shownDate(compared, variable, shown);
  const control = comparison?.options.control ?? null;
  const treated = chartTreatments(compared.plan).filter(({ treatment }) => treatment !== control);
  const [chosen, setChosen] = useState<string | null>(null);
  const beside = treated.find(({ treatment }) => treatment === chosen) ?? treated.at(-1);
  return (
    <div className={blocks.sections}>
      <ShownFields compared={compared} shown={shown}>
        {control !== null && beside && treated.length > 1 && (
          <SelectField
            label={text.treated}
            value={beside.treatment}
            choices={treated.map(({ treatment, label }) => [treatment, `${treatment} ${label}`])}
            onChange={setChosen}
          />
        )}
      </ShownFields>
      {comparison?.dates.length === 0 && <NoValues compared={compared} variable={variable} />}
      {comparison && date !== null && (
        <>
          <Pair compared={compared} comparison={comparison} date={date} treated={beside} />
          <ValueMap compared={compared} comparison={comparison} date={date} />
        </>
      )}
      {comparison && <Matrix compared={compared} comparison={comparison} />}
    </div>
  );
}

interface OfDate {
  readonly compared: ComparedTrial;
  readonly comparison: VariableComparison;
  readonly date: string;
}

/** Photos of the trial's plots with a figure of the declared kind, by plot and date; frames of one plot in their order. */
function usePlotPhotos({ declared }: ComparedTrial): ReadonlyMap<string, readonly PhotoSummary[]> {
  const photos = useObservable(useSession().photos);
  const method = declared.method ?? 'automatic';
  const found = new Map<string, PhotoSummary[]>();
  for (const photo of photos) {
    const { plot, ratingDate, figures } = photo;
    if (plot === null || ratingDate === null || !figures[method]) continue;
    const key = cellKey(plot, ratingDate);
    found.set(key, [...(found.get(key) ?? []), photo]);
  }
  return found;
}

const isThere = (cut: ReturnType<typeof useCutPhoto>): cut is CutPhoto => cut !== null && cut !== 'not-there';

const cellKey = (plot: string, ratingDate: string) => `${plotKey(plot)}\t${ratingDate}`;

function Pair({
  compared,
  comparison,
  date,
  treated,
}: OfDate & { readonly treated: ChartTreatment | undefined }) {
  const { plan } = compared;
  const { options, observations } = comparison;
  const control = options.control ?? null;
  const photos = usePlotPhotos(compared);
  const words = wordsOf(compared, comparison.variable);
  const onDate = observations.observations.filter(({ ratingDate }) => ratingDate === date);
  const pair = control !== null && treated ? typicalPair(onDate, control, treated.treatment) : null;
  const plots = pair ? ([pair.control, pair.treated] as const) : null;
  const untreatedPicture = useCutPhoto(plots && (photos.get(cellKey(plots[0].plot, date))?.[0] ?? null));
  const treatedPicture = useCutPhoto(plots && (photos.get(cellKey(plots[1].plot, date))?.[0] ?? null));
  const isLost = [untreatedPicture, treatedPicture].includes('not-there');
  const value = (amount: number) => amount.toFixed(words.decimals) + words.unit;
  if (control === null) {
    return (
      <section className={blocks.section} aria-label={text.pair}>
        <h2>{text.pair}</h2>
        <p className={blocks.soft}>{text.noControl}</p>
      </section>
    );
  }
  return (
    <div className={blocks.section}>
      {pair && isThere(untreatedPicture) && isThere(treatedPicture) ? (
        <PhotoPair
          title={`${text.pair}, ${formatDay(date, 'short')}`}
          fileName={`${plan.trial.code}-${date}-pair`}
          headingLevel={2}
          ratingDate={date}
          block={pair.block}
          pictures={[
            {
              treatment: control,
              label: chartTreatments(plan).find(({ treatment }) => treatment === control)!.label,
              plot: pair.control.plot,
              words: `${words.name} ${value(pair.control.value)}`,
              ...untreatedPicture,
            },
            {
              ...treated!,
              plot: pair.treated.plot,
              words: `${words.name} ${value(pair.treated.value)}`,
              ...treatedPicture,
            },
          ]}
          remarks={[text.nearest(value(pair.controlMean), value(pair.treatedMean), pair.block)]}
          experimental={isExperimental(plan)}
        />
      ) : (
        <p className={blocks.soft} role="status">
          {!pair ? text.noPair : isLost ? text.lost : compareText.working}
        </p>
      )}
    </div>
  );
}

function ValueMap({ compared, comparison, date }: OfDate) {
  const { plan } = compared;
  const { observations, variable } = comparison;
  const words = wordsOf(compared, variable);
  const all = observations.observations;
  const values = new Map(
    all.filter(({ ratingDate }) => ratingDate === date).map(({ plot, value }) => [plot, value]),
  );
  const size = plan.trial.plotSize;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const { value } of all) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return (
    <PlotValueMap
      title={text.map(words.name, date)}
      fileName={`${plan.trial.code}-${date}-map`}
      headingLevel={2}
      quantity={quantityOf(words)}
      ratingDate={date}
      plots={plan.plots.map(({ plot, treatment, block, row, column }) => ({
        plot,
        treatment: String(treatment),
        block: block === null ? null : String(block),
        row,
        column,
        value: values.get(plot) ?? null,
      }))}
      bounds={[least, most]}
      plotAspect={size ? size.grossLengthMm / size.grossWidthMm : 1}
      experimental={isExperimental(plan)}
    />
  );
}

const isShownAs = oneOf('photo', 'mask');

function Matrix({ compared, comparison }: Omit<OfDate, 'date'>) {
  const { plan } = compared;
  const { dates, observations, variable } = comparison;
  const photos = usePlotPhotos(compared);
  const [as, setAs] = usePreference<'photo' | 'mask'>('compare.matrix', 'photo', isShownAs);
  const words = wordsOf(compared, variable);
  const values = new Map(
    observations.observations.map(({ plot, ratingDate, value }) => [cellKey(plot, ratingDate), value]),
  );
  const byId = new Map([...photos.values()].flat().map((photo) => [photo.id, photo]));
  if (photos.size === 0) return <p className={blocks.soft}>{text.noPhotos}</p>;
  const cells = plan.plots.flatMap(({ plot }) =>
    dates.flatMap((ratingDate) => {
      const own = photos.get(cellKey(plot, ratingDate));
      const value = values.get(cellKey(plot, ratingDate));
      if (!own) return [];
      const said = value === undefined ? compareText.none : value.toFixed(words.decimals) + words.unit;
      return [
        {
          plot,
          ratingDate,
          photoId: own[0]!.id,
          words: own.length > 1 ? `${said}, ${text.several(own.length)}` : said,
        },
      ];
    }),
  );
  return (
    <div className={blocks.section}>
      <Segments
        label={text.show}
        value={as}
        choices={[
          ['photo', text.photo],
          ['mask', text.mask],
        ]}
        onChange={setAs}
      />
      <PhotoMatrix
        key={variableKey(variable)}
        title={text.matrix}
        fileName={`${plan.trial.code}-plots`}
        headingLevel={2}
        plots={plan.plots.map(({ plot, treatment }) => ({ plot, treatment: String(treatment) }))}
        ratingDates={dates}
        photos={cells}
        picture={({ photoId }) => {
          const photo = byId.get(photoId)!;
          return as === 'photo' ? <PhotoPicture photo={photo} /> : <MaskPicture photo={photo} />;
        }}
        hrefOf={({ photoId }) => `#/cover/${photoId}`}
      />
    </div>
  );
}
