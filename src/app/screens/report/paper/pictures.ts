import type { VariableResult } from '../../../../core/report/reportResults.ts';
import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { typicalPlots } from '../../../../core/report/typicalPlots.ts';
import { plotKey } from '../../../../core/trial/plot.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { mainDate } from './ResultsSection.tsx';

/** A picture for paper: `cut` to the frame and large, or the whole photo, small. */
export interface WantedPicture {
  readonly photoId: string;
  readonly kind: 'cut' | 'small';
}

export const pictureKey = ({ photoId, kind }: WantedPicture): string => `${kind} ${photoId}`;

/** Pictures by `pictureKey`, as data: addresses. */
export type Pictures = ReadonlyMap<string, string>;

/** One typical plot of a treatment with its photo. */
export interface TypicalPicture {
  readonly photoId: string;
  readonly plot: string;
  readonly treatment: string;
  readonly value: number;
}

/** What pictures a report shows. */
export interface PicturePlan {
  readonly ratingDate: string;
  readonly result: VariableResult;
  readonly block: string | null;
  readonly typical: readonly TypicalPicture[];
  readonly dates: readonly string[];
  readonly matrix: readonly {
    readonly plot: string;
    readonly treatment: number;
    readonly cells: readonly ({ readonly photoId: string; readonly value: number | null } | null)[];
  }[];
  /** Photos with a figure that the table of pictures leaves out, being too many. */
  readonly tooMany: number;
}

/** A table of more pictures would be no report any more. Judgement. */
const MOST_IN_MATRIX = 400;

/** @returns null where nothing is declared, or no plot of the declared variable has a photo */
export function picturePlan(report: TrialReport, photos: readonly PhotoSummary[]): PicturePlan | null {
  const result = report.results.find(({ isDeclared }) => isDeclared);
  if (!result || !report.declared) return null;
  const method = report.declared.analysis.method ?? 'automatic';
  const byCell = new Map<string, PhotoSummary>();
  for (const photo of photos) {
    const { plot, ratingDate, figures } = photo;
    if (plot === null || ratingDate === null || !figures[method]) continue;
    const key = cellKey(plot, ratingDate);
    if (!byCell.has(key)) byCell.set(key, photo);
  }
  const { ratingDate } = mainDate(report, result);
  const { observations } = result.observations;
  const { block, plots } = typicalPlots(
    observations.filter((one) => one.ratingDate === ratingDate),
    report.treatments.map(({ number }) => String(number)),
  );
  const typical = plots.flatMap(({ plot, treatment, value }): TypicalPicture[] => {
    const photo = byCell.get(cellKey(plot, ratingDate));
    return photo ? [{ photoId: photo.id, plot, treatment, value }] : [];
  });
  const dates = result.dates.map((date) => date.ratingDate);
  const values = new Map(observations.map((one) => [cellKey(one.plot, one.ratingDate), one.value]));
  const matrix = report.plots.map(({ plot, treatment }) => ({
    plot,
    treatment,
    cells: dates.map((date) => {
      const photo = byCell.get(cellKey(plot, date));
      return photo ? { photoId: photo.id, value: values.get(cellKey(plot, date)) ?? null } : null;
    }),
  }));
  const count = matrix.flatMap(({ cells }) => cells).filter((cell) => cell !== null).length;
  if (typical.length === 0 && count === 0) return null;
  const fits = count <= MOST_IN_MATRIX;
  return {
    ratingDate,
    result,
    block,
    typical,
    dates,
    matrix: fits ? matrix : [],
    tooMany: fits ? 0 : count,
  };
}

const cellKey = (plot: string, ratingDate: string) => `${plotKey(plot)}\t${ratingDate}`;

/** The pictures that a plan needs; a short report has the typical ones alone. */
export function wantedPictures(plan: PicturePlan | null, length: 'long' | 'short'): WantedPicture[] {
  if (!plan) return [];
  const cut = plan.typical.map(({ photoId }) => ({ photoId, kind: 'cut' }) as const);
  if (length === 'short') return cut;
  const small = plan.matrix.flatMap(({ cells }) =>
    cells.flatMap((cell) => (cell ? [{ photoId: cell.photoId, kind: 'small' } as const] : [])),
  );
  return [...cut, ...small];
}
