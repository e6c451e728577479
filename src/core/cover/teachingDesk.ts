import type { BetweenStrips } from '../classifier/classification.ts';
import { cellShares } from '../classifier/classifiedCells.ts';
import { type CoverModel, fitCoverModel, type TeachingProblem } from '../classifier/coverModel.ts';
import { type HeldBackAgreement, heldBackAgreement } from '../classifier/heldBackAgreement.ts';
import { drawPhotoFit, fitToPhoto, type PhotoFit } from '../classifier/photoFit.ts';
import { type CellSample, type PhotoLook, photoLook, sampleCells } from '../classifier/photoLook.ts';
import type { DoubtReason } from '../classifier/taughtDoubts.ts';
import {
  type StrokeCells,
  type StrokeProblem,
  strokeCells,
  type TeachingStroke,
  type TrainingSample,
  trainingSamples,
} from '../classifier/trainingSamples.ts';
import { coarserPlanes } from '../features/coarserPlanes.ts';
import { extractFeatures, type FeaturePlanes } from '../features/featurePlanes.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import { applyGapRule } from '../mask/gapRule.ts';
import type { PlacedMask } from '../raster/placedMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { type MeasureProblem, type MeasureSettings, preparePhoto } from './measurePhoto.ts';

/** A stroke that can be told from others like it. */
export interface NamedStroke extends TeachingStroke {
  readonly id: string;
}

/** A photo as it is put on the desk. */
export interface DeskPhoto {
  readonly photoId: string;
  readonly photoSha256: string;
  readonly settings: MeasureSettings;
  readonly strokes: readonly NamedStroke[];
  /** Whether it is painted on now: then its planes are kept in full, and those of the photo before are let go. */
  readonly isOpen: boolean;
}

export type PutResult =
  | { readonly ok: true; readonly problems: readonly StrokeProblem[]; readonly look: PhotoLook }
  | { readonly ok: false; readonly problem: MeasureProblem };

/** What was taught last. */
export type Lesson =
  | { readonly ok: true; readonly classesWithoutStrokes: readonly string[] }
  | { readonly ok: false; readonly problem: TeachingProblem };

/** The last lesson applied to a photo. */
export interface AppliedLesson {
  readonly placed: PlacedMask;
  /** By class, 0..1. */
  readonly coverFraction: readonly number[];
  readonly reasons: readonly DoubtReason[];
  /** 1 where a flag is raised. */
  readonly doubt: number;
}

/** `preview` and `whole` are of the photo that is open; `small` of any photo on the desk. */
export type Detail = 'preview' | 'whole' | 'small';

/** Half a million cells are drawn within a blink; a tile of the strip has some hundred pixels a side. */
const PREVIEW_CELLS = 500_000;
const SMALL_CELLS = 30_000;

interface OpenPhoto {
  readonly photoId: string;
  readonly area: MeasuredArea;
  readonly features: FeaturePlanes;
  readonly preview: FeaturePlanes;
  /** By stroke. */
  readonly cells: Map<string, StrokeCells>;
}

interface KnownPhoto {
  readonly photoSha256: string;
  readonly sample: CellSample;
  readonly look: PhotoLook;
  readonly small: FeaturePlanes;
  readonly classIds: readonly string[];
  readonly settings: MeasureSettings;
  samples: readonly TrainingSample[];
}

/**
 * The photos of a rating date while a person teaches: what the strokes on them show, the model taught last, and its
 * classes on each photo. Decoding and features cost most and are done once a photo; a stroke costs fit and drawing.
 */
export class TeachingDesk {
  #open: OpenPhoto | null = null;
  readonly #known = new Map<string, KnownPhoto>();
  #model: CoverModel | null = null;
  /** Photos the model was taught on. */
  #taughtOn: readonly KnownPhoto[] = [];
  /** Of the model, by photo. */
  readonly #fits = new Map<string, PhotoFit>();

  get model(): CoverModel | null {
    return this.#model;
  }

  /** Puts a photo on the desk, in place of what was known of it. */
  async put(raster: RgbaRaster, photo: DeskPhoto, betweenStrips?: BetweenStrips): Promise<PutResult> {
    const { photoId, photoSha256, settings, strokes, isOpen } = photo;
    const preparation = preparePhoto(raster, settings);
    if (!preparation.ok) return preparation;
    const { area, neutralGains } = preparation;
    const features = await extractFeatures(raster, area, { neutralGains, betweenStrips });
    const classIds = settings.classes.map(({ id }) => id);
    const { samples, problems } = trainingSamples(strokes, area, features, classIds);
    const sample = sampleCells(features);
    const look = photoLook(sample);
    this.#known.set(photoId, {
      photoSha256,
      sample,
      look,
      small: coarserPlanes(features, SMALL_CELLS),
      classIds,
      settings,
      samples,
    });
    this.#fits.delete(photoId);
    if (isOpen) {
      const preview = coarserPlanes(features, PREVIEW_CELLS);
      this.#open = { photoId, area, features, preview, cells: new Map() };
    }
    return { ok: true, problems, look };
  }

  /** The strokes on the open photo have changed. @returns null where another photo is open */
  repaint(photoId: string, strokes: readonly NamedStroke[]): readonly StrokeProblem[] | null {
    const open = this.#open;
    const known = this.#known.get(photoId);
    if (open?.photoId !== photoId || !known) return null;
    const { area, features, cells } = open;
    const byStroke = new Map(strokes.map((stroke) => [stroke as TeachingStroke, stroke.id]));
    const cellsOf = (stroke: TeachingStroke): StrokeCells => {
      const id = byStroke.get(stroke)!;
      const kept = cells.get(id) ?? strokeCells(stroke, area, features.grid);
      cells.set(id, kept);
      return kept;
    };
    const { samples, problems } = trainingSamples(strokes, area, features, known.classIds, cellsOf);
    known.samples = samples;
    return problems;
  }

  /** Teaches a model on the strokes of these photos; those not on the desk teach nothing. */
  teach(photoIds: readonly string[], classIds: readonly string[]): Lesson {
    this.#model = null;
    this.#fits.clear();
    const photos = photoIds.flatMap((id) => this.#known.get(id) ?? []);
    const fit = fitCoverModel(photos, classIds);
    if (!fit.ok) return fit;
    this.#model = fit.model;
    this.#taughtOn = photos;
    return { ok: true, classesWithoutStrokes: fit.classesWithoutStrokes };
  }

  /** Of the last lesson, on strokes that were held back; null where too few were painted. Takes longer than the lesson. */
  agreement(): HeldBackAgreement | null {
    return this.#model && heldBackAgreement(this.#taughtOn, this.#model.classes.length);
  }

  /** @returns null where nothing is taught, or the photo is not on the desk in that detail */
  apply(photoId: string, detail: Detail): AppliedLesson | null {
    const known = this.#known.get(photoId);
    const open = this.#open?.photoId === photoId ? this.#open : null;
    const features = detail === 'small' ? known?.small : detail === 'whole' ? open?.features : open?.preview;
    if (!this.#model || !known || !features) return null;
    const fit = this.#fitOf(this.#model, photoId, known);
    const { widthCells, heightCells, leftPx, topPx, factor } = features.grid;
    const { classes, gapRule } = known.settings;
    const drawn = drawPhotoFit(features, fit);
    const labels = applyGapRule(drawn, features.grid, classes, gapRule) ?? drawn;
    return {
      placed: {
        mask: { widthPx: widthCells, heightPx: heightCells, labels },
        leftPx,
        topPx,
        cellPx: factor,
      },
      coverFraction:
        labels === drawn ? fit.coverFraction : cellShares(labels, features.groundWeight, classes.length),
      reasons: fit.reasons,
      doubt: fit.doubt,
    };
  }

  /** Without standard errors, which are for figures that are kept. */
  #fitOf(model: CoverModel, photoId: string, { sample, photoSha256 }: KnownPhoto): PhotoFit {
    const kept = this.#fits.get(photoId);
    if (kept) return kept;
    const fit = fitToPhoto(model, sample, { photoSha256, withStandardError: false });
    this.#fits.set(photoId, fit);
    return fit;
  }
}
