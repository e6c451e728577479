import type { MeasureSettings } from '../cover/measurePhoto.ts';
import type { CoverMethod } from '../exchange/coverTable.ts';
import type { CountedPhoto } from '../point-grid/countedPhoto.ts';
import type { ComparedVariable, DeclaredAnalysis } from '../statistics/declaredAnalysis.ts';
import type { DeclaredComparison } from '../statistics/declaredFinding.ts';
import type { TrialObservations } from '../statistics/trialObservations.ts';
import type { Score } from '../trial/rating.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { WeatherDay } from '../trial/weather.ts';

/** A figure with what it was made of. */
export interface ReportFigure {
  readonly id: string;
  readonly cover: readonly {
    readonly classId: string;
    readonly coverFraction: number;
    readonly lowFraction?: number | undefined;
    readonly highFraction?: number | undefined;
  }[];
  readonly flags: readonly string[];
  readonly reasons?: readonly unknown[] | undefined;
  readonly measuredPixels: number;
  readonly millimetresPerPixel: number | null;
  readonly modelId: string;
  readonly softwareVersion: string;
  readonly decoder: string;
  readonly settings: MeasureSettings;
  readonly changedFraction?: number | undefined;
}

/** A photo as a report needs it; where it was taken is none of it. */
export interface ReportPhoto {
  readonly id: string;
  readonly name: string;
  readonly plot: string | null;
  readonly place: number | null;
  readonly ratingDate: string | null;
  readonly camera: { readonly device: string | null } | null;
  readonly frameBy: 'finder' | 'finder-confirmed' | 'person' | 'file' | null;
  /** Present figures, one a method. */
  readonly figures: Readonly<Partial<Record<CoverMethod, ReportFigure>>>;
}

/** One declaration as it was kept. */
export interface ReportDeclaration {
  readonly by: string;
  /** ISO 8601 instant. */
  readonly at: string;
  /** Of an amendment. */
  readonly reason: string | null;
  /** Null where this program cannot read it. */
  readonly declared: DeclaredAnalysis | null;
}

/** A variable compared as declared. */
export interface ReportComparison extends DeclaredComparison {
  readonly variable: ComparedVariable;
  readonly observations: TrialObservations;
}

/** A taught model that measured photos. */
export interface ReportModel {
  readonly id: string;
  /** Photos it was taught on. */
  readonly photos: number;
  /** Null where it was not kept. */
  readonly agreement: { readonly cells: number; readonly share: number } | null;
}

export interface ReportReview {
  readonly photoId: string;
  readonly verdict: 'accepted' | 'corrected' | 'skipped';
  /** The figure that was looked at. */
  readonly figureId: string;
}

export interface ReportSignOff {
  readonly ratingDate: string;
  readonly by: string;
  /** ISO 8601 instant. */
  readonly at: string;
  /** Why an earlier one was amended. */
  readonly reason: string | null;
}

/** Everything a report is made from: records as they stand, nothing worked out but the comparisons. */
export interface ReportSource {
  readonly plan: TrialPlan;
  readonly photos: readonly ReportPhoto[];
  readonly scores: readonly Score[];
  readonly weather: readonly WeatherDay[];
  /** Oldest first; the last one holds. */
  readonly declarations: readonly ReportDeclaration[];
  /** The declared variable first; empty before anything was declared. */
  readonly comparisons: readonly ReportComparison[];
  readonly reviews: readonly ReportReview[];
  readonly signOffs: readonly ReportSignOff[];
  /** Photos with points, of all rating dates. */
  readonly counted: readonly CountedPhoto[];
  readonly models: readonly ReportModel[];
  readonly softwareVersion: string;
  readonly databaseVersion: number;
  /** ISO 8601 instant. */
  readonly madeAt: string;
}

/** What a copy of the report shows. */
export interface ReportChoices {
  /** Null: all of them. */
  readonly ratingDates: readonly string[] | null;
  /** Whether names of treatments, what was done to them, and products are shown; else numbers stand alone. */
  readonly withNames: boolean;
}
