import { COVER_METHODS, type CoverMethod } from '../../../core/exchange/coverTable.ts';
import { type PackagedAnalysis, packagedComparison } from '../../../core/exchange/dataPackageComparison.ts';
import type {
  PackagedFigure,
  PackagedPhoto,
  PackagedTrial,
} from '../../../core/exchange/dataPackageTables.ts';
import { TRANSFORMS, type Transform } from '../../../core/statistics/transforms.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import type { ArchiveContents } from '../../../storage/archive/archivedTables.ts';
import type { TrialState } from '../trialState.ts';

/** Records of the store as the tables of an export. */
export function packagedTrial(contents: ArchiveContents, trial: TrialState): PackagedTrial {
  const figures = groupBy(
    contents.figures.filter(({ current }) => current === 1),
    ({ photoId }) => photoId,
  );
  const byId = new Map(
    contents.photos.map(({ id, name, sha256, plot, place, ratingDate }): [string, PackagedPhoto] => {
      const own = [...(figures.get(id) ?? [])].sort((a, b) => (a.method < b.method ? -1 : 1));
      return [id, { name, sha256, plot, place, ratingDate, figures: own as readonly PackagedFigure[] }];
    }),
  );
  const photos = [...byId.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
  const calls = groupBy(contents.calls, ({ pointSetId }) => pointSetId);
  const plan = trial.state === 'open' ? trial.plan : null;
  const compared = photos.map(({ plot, ratingDate, figures: own }) => ({
    plot,
    ratingDate,
    figures: Object.fromEntries(own.map((figure) => [figure.method, figure])),
  }));
  return {
    plan,
    photos,
    calls: contents.pointSets.flatMap(({ id, photoId }) => {
      const photo = byId.get(photoId);
      const own = [...(calls.get(id) ?? [])].sort((a, b) => (a.calledAt < b.calledAt ? -1 : 1));
      return photo && own.length > 0 ? [{ photo, pointSetId: id, calls: own }] : [];
    }),
    scores: trial.state === 'open' ? trial.scores : [],
    weather: trial.state === 'open' ? trial.weather : [],
    comparison: plan && packagedComparison(plan, compared, analysisOf(contents)),
  };
}

/** As last declared; without a declaration automatic figures without a transform. */
function analysisOf({ declarations }: ArchiveContents): PackagedAnalysis {
  const last = declarations.toSorted((a, b) => (a.at < b.at ? -1 : 1)).at(-1)?.declaration as
    | { readonly method?: unknown; readonly transform?: unknown; readonly alpha?: unknown }
    | undefined;
  const { method, transform, alpha } = last ?? {};
  return {
    method: COVER_METHODS.includes(method as CoverMethod) ? (method as CoverMethod) : 'automatic',
    transform: TRANSFORMS.includes(transform as Transform) ? (transform as Transform) : 'none',
    alpha: typeof alpha === 'number' && alpha > 0 && alpha < 1 ? alpha : 0.05,
  };
}
