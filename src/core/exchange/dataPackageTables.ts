import { writtenPercent } from '../cover/writtenPercent.ts';
import type { PointCall } from '../point-grid/pointCall.ts';
import { compareNames } from '../statistics/plotObservation.ts';
import { groupBy } from '../trial/groupBy.ts';
import { plotKey } from '../trial/plot.ts';
import type { Score } from '../trial/rating.ts';
import type { GapRule } from '../trial/trial.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { WeatherDay } from '../trial/weather.ts';
import { COVER_COLUMNS, type CoverMethod, type CoverRow, coverCells } from './coverTable.ts';
import { readCsv, writeCsv } from './csv.ts';
import type { PackageTable } from './dataPackage.ts';
import type { PackagedComparison } from './dataPackageComparison.ts';
import { comparisonTables } from './dataPackageComparison.ts';
import { writePlotTable } from './plotTable.ts';
import { writeApplicationTable, writeRatingTable, writeTreatmentTable } from './trialTables.ts';

/** A figure of a photo. */
export interface PackagedFigure {
  readonly method: CoverMethod;
  readonly modelId: string;
  readonly flags: readonly string[];
  /** Pixels, or points judged. */
  readonly measuredPixels: number;
  readonly cover: readonly {
    readonly classId: string;
    readonly pixels: number;
    readonly coverFraction: number;
    readonly lowFraction?: number | undefined;
    readonly highFraction?: number | undefined;
  }[];
}

/** A photo with its present figures, one a method. */
export interface PackagedPhoto {
  readonly name: string;
  readonly sha256: string;
  readonly plot: string | null;
  readonly place: number | null;
  readonly ratingDate: string | null;
  readonly figures: readonly PackagedFigure[];
}

/** The calls at the points of one photo. */
export interface PackagedCalls {
  readonly photo: PackagedPhoto;
  readonly pointSetId: string;
  readonly calls: readonly PointCall[];
}

export interface PackagedTrial {
  /** Null for photos without a trial. */
  readonly plan: TrialPlan | null;
  readonly photos: readonly PackagedPhoto[];
  readonly calls: readonly PackagedCalls[];
  readonly scores: readonly Score[];
  readonly weather: readonly WeatherDay[];
  /** Null where there is nothing to compare. */
  readonly comparison: PackagedComparison | null;
}

/** All tables of a trial that have rows. */
export function dataPackageTables(trial: PackagedTrial): PackageTable[] {
  const { plan } = trial;
  const tables: (PackageTable | null)[] = [
    coverTable(trial),
    plan && written('plots', writePlotTable(plan.plots, plan.treatments), ['plot']),
    plan && written('treatments', writeTreatmentTable(plan.treatments), ['treatment']),
    plan && written('applications', writeApplicationTable(plan.applications), []),
    plan && written('ratings', writeRatingTable(plan.ratings), ['rating']),
    scoreTable(trial),
    pointTable(trial),
    agreementTable(trial),
    ...(trial.comparison ? comparisonTables(trial.comparison) : []),
    weatherTable(trial),
  ];
  return tables.filter((table) => table !== null);
}

/** A table whose text is there already; null where it has no rows. */
function written(
  name: PackageTable['name'],
  csv: string,
  primaryKey: readonly string[],
): PackageTable | null {
  const { columns, rows } = readCsv(csv);
  return rows.length === 0 ? null : { name, columns, csv, primaryKey };
}

function table(
  name: PackageTable['name'],
  columns: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
  primaryKey: readonly string[] = [],
): PackageTable | null {
  if (rows.length === 0) return null;
  const csv = writeCsv(
    columns,
    rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell)))),
  );
  return { name, columns, csv, primaryKey };
}

function coverTable({ plan, photos }: PackagedTrial): PackageTable | null {
  const plots = new Map(plan?.plots.map((plot) => [plotKey(plot.plot), plot]));
  const percent = (fraction: number | undefined): number | null =>
    fraction === undefined ? null : 100 * fraction;
  const rows = photos.flatMap((photo) => {
    const plot = photo.plot === null ? undefined : plots.get(plotKey(photo.plot));
    return photo.figures.flatMap(({ method, modelId, flags, cover }) =>
      cover.map((share): (string | number | null)[] => {
        const row: CoverRow = {
          photo: photo.name,
          plot: photo.plot,
          quadrat: photo.place === null ? null : String(photo.place),
          block: plot && plot.block !== null ? String(plot.block) : null,
          treatment: plot ? String(plot.treatment) : null,
          ratingDate: photo.ratingDate,
          classId: share.classId,
          pixels: share.pixels,
          coverPercent: 100 * share.coverFraction,
          coverLow: percent(share.lowFraction),
          coverHigh: percent(share.highFraction),
          method,
          model: modelId,
          flags,
        };
        return [...coverCells(row), photo.sha256];
      }),
    );
  });
  return table('cover', [...COVER_COLUMNS, 'photo_sha256'], rows, ['photo_sha256', 'class', 'method']);
}

function scoreTable({ plan, scores }: PackagedTrial): PackageTable | null {
  const variables = new Map(plan?.ratedVariables.map((variable) => [variable.id, variable]));
  const rows = scores
    .map(({ variable, plot, ratingDate, rater, value }) => {
      const known = variables.get(variable);
      return [variable, known?.name ?? null, known?.unit ?? null, plot, ratingDate, rater, value] as const;
    })
    .sort((a, b) => compareNames(a.slice(0, 6).join('\n'), b.slice(0, 6).join('\n')));
  return table(
    'scores',
    ['variable', 'variable_name', 'unit', 'plot', 'rating_date', 'rater', 'value'],
    rows,
  );
}

const gapRuleText = (rule: GapRule): string =>
  rule.kind === 'every-pixel' ? rule.kind : `smaller-than-${rule.smallerThanMm}-mm`;

function pointTable({ calls }: PackagedTrial): PackageTable | null {
  return table(
    'points',
    [
      'photo',
      'plot',
      'rating_date',
      'point_set',
      'point',
      'observer',
      'called_class',
      'x_px',
      'y_px',
      'called_at',
      'gap_rule',
      'photo_sha256',
    ],
    calls.flatMap(({ photo, pointSetId, calls: own }) =>
      own.map(({ pointId, observer, classId, at: [x, y], calledAt, gapRule }) => [
        photo.name,
        photo.plot,
        photo.ratingDate,
        pointSetId,
        pointId,
        observer,
        classId,
        x,
        y,
        calledAt,
        gapRuleText(gapRule),
        photo.sha256,
      ]),
    ),
  );
}

const MASK_METHODS: readonly CoverMethod[] = ['automatic', 'corrected'];

function agreementTable({ photos }: PackagedTrial): PackageTable | null {
  const rows = photos.flatMap((photo) => {
    const byMethod = groupBy(photo.figures, ({ method }) => method);
    const [points] = byMethod.get('points') ?? [];
    if (!points) return [];
    return MASK_METHODS.flatMap((method) => {
      const [mask] = byMethod.get(method) ?? [];
      return (mask?.cover ?? []).flatMap(({ classId, coverFraction }) => {
        const counted = points.cover.find((share) => share.classId === classId);
        if (!counted) return [];
        const [byMask, byPoints] = [writtenPercent(coverFraction), writtenPercent(counted.coverFraction)];
        const difference = Number((byMask - byPoints).toFixed(3));
        return [
          [
            photo.name,
            photo.plot,
            photo.ratingDate,
            classId,
            method,
            byMask,
            byPoints,
            points.measuredPixels,
            difference,
            photo.sha256,
          ],
        ];
      });
    });
  });
  return table(
    'agreement',
    [
      'photo',
      'plot',
      'rating_date',
      'class',
      'mask_method',
      'mask_percent',
      'points_percent',
      'points_judged',
      'difference_points',
      'photo_sha256',
    ],
    rows,
    ['photo_sha256', 'class', 'mask_method'],
  );
}

function weatherTable({ weather }: PackagedTrial): PackageTable | null {
  return table(
    'weather',
    ['date', 'air_c', 'air_least_c', 'air_most_c', 'soil_c', 'rain_mm'],
    weather.map(({ day, airC, airLeastC, airMostC, soilC, rainMm }) => [
      day,
      airC,
      airLeastC,
      airMostC,
      soilC,
      rainMm,
    ]),
    ['date'],
  );
}
