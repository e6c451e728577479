import { type ApplicationProgress, isStillToCome } from '../trial/applicationsBy.ts';
import type { ComparedVariable } from './declaredAnalysis.ts';
import { studentTTwoSided } from './distributions/studentT.ts';
import { noticeableDifference } from './planning.ts';
import type { Transform } from './transforms.ts';
import type { TreatmentAnalysis, TreatmentMean } from './treatmentAnalysis.ts';

/** What a comparison came to, in values; core/text/finding.ts makes sentences of it. Nothing is in it that its table does not show. */
export interface Finding {
  readonly variable: ComparedVariable;
  readonly at:
    | { readonly kind: 'date'; readonly ratingDate: string }
    | { readonly kind: 'area'; readonly from: string; readonly to: string };
  readonly alpha: number;
  readonly transform: Transform;
  readonly control: FoundMean | null;
  /** The control's mean where it is below the pressure asked for: differences then say little. */
  readonly lowPressure: { readonly mean: number; readonly minimum: number } | null;
  /** Treatments judged against the control, or listed where there is none; by number. */
  readonly judged: readonly JudgedTreatment[];
  /** Treatments whose applications were all still to come. */
  readonly notJudged: readonly {
    readonly treatment: string;
    readonly applications: ApplicationProgress;
  }[];
  /** Pairs of judged treatments that differ (Tukey), the control left out. */
  readonly amongTreated: readonly { readonly lower: string; readonly higher: string; readonly p: number }[];
  /**
   * The smallest true difference from the control that was likely to be seen (power NOTICED), for treatments where none was
   * shown; the largest where they differ. Null where it cannot be told, and under a transformation.
   */
  readonly noticeable: number | null;
  /** Why nothing could be tested. */
  readonly obstacle: 'one-treatment' | 'no-error' | 'no-variation' | null;
}

export interface FoundMean {
  readonly treatment: string;
  readonly mean: number;
  readonly n: number;
}

export interface JudgedTreatment extends FoundMean {
  /** Against the control after Dunnett; `no-control` where there is none. */
  readonly verdict: 'lower' | 'higher' | 'not-shown' | 'not-tested' | 'no-control';
  /** Treatment - control on the scale of the response with its limits; null under a transformation. */
  readonly difference: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly p: number | null;
  readonly applications: ApplicationProgress;
}

/** Power at which a difference counts as one that would likely have been seen (common practice, no source). */
export const NOTICED = 0.8;

/** What a finding is made from. */
export interface FindingSource {
  readonly variable: ComparedVariable;
  readonly at: Finding['at'];
  readonly analysis: TreatmentAnalysis;
  readonly control: string | null;
  readonly minimumPressure: number;
  /** By treatment number, on the day of the finding. */
  readonly applications: ReadonlyMap<number, ApplicationProgress>;
}

/** The finding of one analysis. */
export function findingOf(source: FindingSource): Finding {
  const { variable, at, analysis, minimumPressure } = source;
  const { alpha, transform } = analysis;
  const applicationsOf = ({ treatment }: { treatment: string }): ApplicationProgress =>
    source.applications.get(Number(treatment)) ?? { done: 0, total: 0 };
  const control = analysis.treatments.find(({ treatment }) => treatment === source.control);
  const foundControl = control && control.mean !== null ? foundMean(control, control.mean) : null;
  const treated = analysis.treatments.filter((own) => own !== control);
  const judged = treated.flatMap((own) => {
    const applications = applicationsOf(own);
    if (isStillToCome(applications) || own.mean === null) return [];
    return [judge(own, own.mean, applications, foundControl !== null, analysis)];
  });
  const names = new Set(judged.map(({ treatment }) => treatment));
  return {
    variable,
    at,
    alpha,
    transform,
    control: foundControl,
    lowPressure:
      foundControl && foundControl.mean < minimumPressure
        ? { mean: foundControl.mean, minimum: minimumPressure }
        : null,
    judged,
    notJudged: treated
      .map((own) => ({ treatment: own.treatment, applications: applicationsOf(own) }))
      .filter(({ applications }) => isStillToCome(applications)),
    amongTreated: analysis.pairs.flatMap(({ a, b, difference, pTukey }) => {
      if (difference === null || pTukey === null || !(pTukey < alpha)) return [];
      if (!names.has(a) || !names.has(b)) return [];
      return [difference < 0 ? { lower: a, higher: b, p: pTukey } : { lower: b, higher: a, p: pTukey }];
    }),
    noticeable: noticeableOf(judged, foundControl, analysis),
    obstacle: obstacleOf(analysis),
  };
}

const foundMean = ({ treatment, n }: TreatmentMean, mean: number): FoundMean => ({ treatment, mean, n });

function judge(
  own: TreatmentMean,
  mean: number,
  applications: ApplicationProgress,
  hasControl: boolean,
  { alpha, transform }: TreatmentAnalysis,
): JudgedTreatment {
  const { difference = null, p = null, low = null, high = null } = own.dunnett ?? {};
  const onScale = transform === 'none';
  const verdict = !hasControl
    ? 'no-control'
    : p === null || difference === null
      ? 'not-tested'
      : !(p < alpha)
        ? 'not-shown'
        : difference < 0
          ? 'lower'
          : 'higher';
  return {
    ...foundMean(own, mean),
    verdict,
    difference: onScale ? difference : null,
    low: onScale ? low : null,
    high: onScale ? high : null,
    p,
    applications,
  };
}

/** Dunnett's test of several treatments asks for a larger t than one comparison: the difference it notices is as much larger. */
function noticeableOf(
  judged: readonly JudgedTreatment[],
  control: FoundMean | null,
  { pairs, errorDf, transform }: TreatmentAnalysis,
): number | null {
  if (!control || transform !== 'none' || errorDf < 1) return null;
  const found = judged.flatMap(({ treatment, verdict, difference, low }) => {
    if (verdict !== 'not-shown' || difference === null || low === null) return [];
    const pair = pairs.find(
      ({ a, b }) =>
        (a === treatment && b === control.treatment) || (b === treatment && a === control.treatment),
    );
    const error = pair?.standardError ?? null;
    if (error === null || !(error > 0)) return [];
    const alphaOfOne = studentTTwoSided((difference - low) / error, errorDf);
    if (!(alphaOfOne < NOTICED)) return [];
    return noticeableDifference(error, errorDf, NOTICED, alphaOfOne) ?? [];
  });
  return found.length > 0 ? Math.max(...found) : null;
}

function obstacleOf({ treatments, errorDf, meanSquareError }: TreatmentAnalysis): Finding['obstacle'] {
  if (treatments.length < 2) return 'one-treatment';
  if (errorDf < 1 || meanSquareError === null) return 'no-error';
  return meanSquareError > 0 ? null : 'no-variation';
}
