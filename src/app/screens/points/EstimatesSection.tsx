import { useState } from 'react';
import { estimatePlotCover, estimateTreatmentCover } from '../../../core/point-grid/clusteredEstimate.ts';
import {
  type CountedPhoto,
  countsOf,
  estimatePhotoCover,
  isCounted,
} from '../../../core/point-grid/countedPhoto.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import { plotKey } from '../../../core/trial/plot.ts';
import blocks from '../../components/blocks.module.css';
import { Segments } from '../../components/Segments.tsx';
import { EstimateTable, type NamedEstimate } from './EstimateTable.tsx';
import { usePoints } from './pointsContext.tsx';
import { treatmentNames } from './treatmentNames.ts';
import { usePhotoNames } from './usePhotoNames.ts';

const text = pointsText.results;
type Level = 'frame' | 'plot' | 'treatment';

interface SectionProps {
  readonly photos: readonly CountedPhoto[];
  readonly observer: string;
}

/** Cover by points: of frames, plots or treatments, and never without saying of which. */
export function EstimatesSection({ photos, observer }: SectionProps) {
  const { points, state } = usePoints();
  const [level, setLevel] = useState<Level>('frame');
  const [together, setTogether] = useState(false);
  const nameOf = usePhotoNames();
  const { classIds } = points;
  const begun = photos.filter(({ calls }) => calls.some((call) => call.observer === observer));
  const unfinished = begun.filter((photo) => !isCounted(photo, observer, classIds)).length;
  const hasTreatments = begun.some(({ treatment }) => treatment !== null);
  const levels = (Object.keys(text.levels) as Level[]).filter((one) => one !== 'treatment' || hasTreatments);
  const estimates = estimatesOf(level, begun, observer, classIds, {
    photo: nameOf,
    treatment: treatmentNames(state),
  });
  return (
    <section className={blocks.section} aria-labelledby="points-estimates">
      <h2 id="points-estimates">{text.estimates}</h2>
      <div className={blocks.row}>
        <Segments
          label={text.level}
          value={level}
          choices={levels.map((one) => [one, text.levels[one]] as const)}
          onChange={setLevel}
        />
        <label className={blocks.check}>
          <input type="checkbox" checked={together} onChange={(event) => setTogether(event.target.checked)} />
          {text.all}
        </label>
      </div>
      <EstimateTable
        caption={text.target[level]}
        what={level === 'frame' ? text.photoWord : level === 'plot' ? text.plotWord : text.treatmentWord}
        classes={state.classes}
        estimates={estimates}
        together={together}
      />
      {together && <p className={blocks.hint}>{text.allHint}</p>}
      {level === 'treatment' && !state.declared && <p className={blocks.hint}>{text.notDeclared}</p>}
      {unfinished > 0 && <p className={blocks.hint}>{text.unfinished(unfinished)}</p>}
    </section>
  );
}

function estimatesOf(
  level: Level,
  photos: readonly CountedPhoto[],
  observer: string,
  classIds: readonly string[],
  names: { readonly photo: (photoId: string) => string; readonly treatment: (treatment: string) => string },
): NamedEstimate[] {
  const counts = (photo: CountedPhoto) => countsOf(photo, observer, classIds);
  const byPlot = (own: readonly CountedPhoto[]) =>
    [...groupBy(own, ({ plot }) => (plot === null ? '' : plotKey(plot)))].filter(([plot]) => plot !== '');
  const sorted = (estimates: NamedEstimate[]) =>
    estimates.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  if (level === 'frame') {
    return sorted(
      photos.map((photo) => ({
        name: names.photo(photo.photoId),
        estimate: estimatePhotoCover(photo, observer, classIds),
      })),
    );
  }
  if (level === 'plot') {
    return sorted(
      byPlot(photos).map(([, own]) => ({
        name: own[0]!.plot!,
        estimate: estimatePlotCover(own.map(counts)),
      })),
    );
  }
  const treated = photos.filter(({ treatment }) => treatment !== null);
  return sorted(
    [...groupBy(treated, ({ treatment }) => treatment!)].map(([treatment, own]) => ({
      name: names.treatment(treatment),
      estimate: estimateTreatmentCover(byPlot(own).map(([, frames]) => frames.map(counts))),
    })),
  );
}
