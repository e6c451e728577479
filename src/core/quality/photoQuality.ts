import { SEARCH_SIDE_PX } from '../frame/findFrame.ts';
import type { GreyCardFinding, GreyCardWarning } from '../frame/findGreyCard.ts';
import { type ReducedPicture, reducePicture } from '../frame/reducedPicture.ts';
import { type PlotFrame, polygonAreaPx } from '../geometry/plotFrame.ts';
import type { CameraFacts } from '../photo-file/readCameraFacts.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { cameraTiltDegrees } from './cameraTilt.ts';
import { type Exposure, exposureOf } from './exposure.ts';
import { type FineDetail, fineDetail } from './fineDetail.ts';
import { frameTiles } from './frameTiles.ts';
import * as limits from './qualityThresholds.ts';
import { type ShadowEdge, shadowEdge } from './shadowEdge.ts';

/** retake: take the photo again; caution: the figure may be less sure; note: good to know. */
export type Severity = 'retake' | 'caution' | 'note';

/** What is the matter with a photo, with the value met; core/text/quality.ts has the words. */
export type QualityFinding = { readonly severity: Severity } & (
  | { readonly code: 'blurred'; readonly detailMm: number }
  | { readonly code: 'noisy'; readonly noiseLevels: number }
  | { readonly code: 'lights-clipped'; readonly fraction: number }
  | { readonly code: 'shadows-clipped'; readonly fraction: number }
  | { readonly code: 'too-dark'; readonly medianGreen: number }
  | { readonly code: 'too-light'; readonly medianGreen: number }
  | { readonly code: 'tilted'; readonly tiltDegrees: number }
  | { readonly code: 'few-pixels'; readonly millimetresPerPixel: number; readonly pixelsPerBlade: number }
  | { readonly code: 'shadow-across'; readonly lightRatio: number; readonly darkFraction: number }
  | { readonly code: 'very-wide-lens'; readonly focalLength35Mm: number }
  | { readonly code: 'digital-zoom'; readonly ratio: number }
  | { readonly code: 'strongly-compressed'; readonly quality: number }
  | {
      readonly code: 'resized';
      readonly writtenWidthPx: number;
      readonly writtenHeightPx: number;
      readonly widthPx: number;
      readonly heightPx: number;
    }
  | { readonly code: 'camera-facts-lost' }
  | { readonly code: 'no-neutral-reference' }
  | { readonly code: 'neutral-reference-unusable'; readonly warning: GreyCardWarning }
);

/** What was measured; null where it cannot be known. */
export interface QualityMeasures extends Exposure {
  readonly millimetresPerPixel: number | null;
  readonly detail: FineDetail | null;
  readonly tiltDegrees: number | null;
  readonly shadow: ShadowEdge;
}

export interface PhotoQuality {
  readonly verdict: 'good' | 'usable' | 'retake';
  /** Most severe first. */
  readonly findings: readonly QualityFinding[];
  readonly measures: QualityMeasures;
}

/** What is known of a photo beside its pixels; leave out what is not. */
export interface PhotoQualityContext {
  readonly frame?: PlotFrame | null;
  /** null or absent: nobody looked for one, so none is missed. */
  readonly greyCard?: GreyCardFinding | null;
  readonly camera?: CameraFacts | null;
  /** From `jpegQuality`; null for other kinds of file. */
  readonly compressionQuality?: number | null;
  readonly reduced?: ReducedPicture;
}

/** Judges a photo for measuring cover: quick enough to be shown while the person still stands at the plot. */
export function photoQuality(photo: RgbaRaster, context: PhotoQualityContext = {}): PhotoQuality {
  const measures = qualityMeasures(photo, context);
  const findings = [
    ...pictureFindings(measures),
    ...fileFindings(photo, context),
    ...neutralFindings(context),
  ];
  const order: readonly Severity[] = ['retake', 'caution', 'note'];
  findings.sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
  const worst = findings[0]?.severity ?? 'note';
  return {
    verdict: worst === 'note' ? 'good' : worst === 'caution' ? 'usable' : 'retake',
    findings,
    measures,
  };
}

function qualityMeasures(
  photo: RgbaRaster,
  { frame, camera, reduced }: PhotoQualityContext,
): QualityMeasures {
  const { widthPx, heightPx } = photo;
  const corners = frame?.corners ?? null;
  const sizeMm = frame?.sizeMm ?? null;
  return {
    ...exposureOf(photo, corners),
    millimetresPerPixel:
      corners && sizeMm ? Math.sqrt((sizeMm[0] * sizeMm[1]) / polygonAreaPx(corners)) : null,
    detail: fineDetail(photo, frameTiles(corners, widthPx, heightPx)),
    tiltDegrees: frame ? cameraTiltDegrees(frame, widthPx, heightPx, camera?.focalLength35Mm ?? null) : null,
    shadow: shadowEdge(reduced ?? reducePicture(photo, SEARCH_SIDE_PX), corners),
  };
}

interface Limits {
  readonly caution: number;
  readonly retake: number;
}

const above = (value: number, { caution, retake }: Limits): Severity | null =>
  value > retake ? 'retake' : value > caution ? 'caution' : null;
const below = (value: number, { caution, retake }: Limits): Severity | null =>
  value < retake ? 'retake' : value < caution ? 'caution' : null;

function pictureFindings(measures: QualityMeasures): QualityFinding[] {
  const { millimetresPerPixel, detail, tiltDegrees, shadow } = measures;
  const { clippedLightsFraction, clippedShadowsFraction, medianGreen } = measures;
  const findings: QualityFinding[] = [];
  if (detail && millimetresPerPixel !== null) {
    const detailMm = detail.detailPx * millimetresPerPixel;
    const softness = above(detailMm, { caution: limits.SOFT_DETAIL_MM, retake: limits.BLURRED_DETAIL_MM });
    if (softness && detail.detailPx > limits.PIXEL_SHARP_PX) {
      findings.push({ code: 'blurred', severity: softness, detailMm });
    }
    if (detail.noiseLevels > limits.NOISY_LEVELS && millimetresPerPixel <= limits.NOISE_JUDGED_TO_MM) {
      findings.push({ code: 'noisy', severity: 'caution', noiseLevels: detail.noiseLevels });
    }
  }
  if (millimetresPerPixel !== null) {
    const severity = above(millimetresPerPixel, {
      caution: limits.FEW_PIXELS_MM,
      retake: limits.BLADE_WIDTH_MM,
    });
    const pixelsPerBlade = limits.BLADE_WIDTH_MM / millimetresPerPixel;
    if (severity) findings.push({ code: 'few-pixels', severity, millimetresPerPixel, pixelsPerBlade });
  }
  const lights = above(clippedLightsFraction, limits.CLIPPED_LIGHTS);
  if (lights) findings.push({ code: 'lights-clipped', severity: lights, fraction: clippedLightsFraction });
  const shadows = above(clippedShadowsFraction, limits.CLIPPED_SHADOWS);
  if (shadows)
    findings.push({ code: 'shadows-clipped', severity: shadows, fraction: clippedShadowsFraction });
  const dark = below(medianGreen, limits.DARK_MEDIAN);
  if (dark) findings.push({ code: 'too-dark', severity: dark, medianGreen });
  const light = above(medianGreen, limits.LIGHT_MEDIAN);
  if (light) findings.push({ code: 'too-light', severity: light, medianGreen });
  const tilted = tiltDegrees === null ? null : above(tiltDegrees, limits.TILT_DEGREES);
  if (tilted) findings.push({ code: 'tilted', severity: tilted, tiltDegrees: tiltDegrees! });
  if (shadow.lightRatio > limits.SHADOW_RATIO) {
    findings.push({ code: 'shadow-across', severity: 'retake', ...shadow });
  }
  return findings;
}

function fileFindings(
  photo: RgbaRaster,
  { camera, compressionQuality }: PhotoQualityContext,
): QualityFinding[] {
  const findings: QualityFinding[] = [];
  if (compressionQuality !== undefined && compressionQuality !== null) {
    const severity = below(compressionQuality, limits.COMPRESSED_QUALITY);
    if (severity) findings.push({ code: 'strongly-compressed', severity, quality: compressionQuality });
  }
  if (!camera) return findings;
  const { focalLength35Mm, digitalZoomRatio, writtenWidthPx, writtenHeightPx } = camera;
  if (!camera.hasExif) findings.push({ code: 'camera-facts-lost', severity: 'caution' });
  if (focalLength35Mm !== null && focalLength35Mm < limits.SHORTEST_FOCAL_LENGTH_35_MM) {
    findings.push({ code: 'very-wide-lens', severity: 'caution', focalLength35Mm });
  }
  if (digitalZoomRatio !== null && digitalZoomRatio > limits.LARGEST_DIGITAL_ZOOM) {
    findings.push({ code: 'digital-zoom', severity: 'caution', ratio: digitalZoomRatio });
  }
  if (writtenWidthPx !== null && writtenHeightPx !== null) {
    const { widthPx, heightPx } = photo;
    // the photo may have been turned upright since, so longer is compared with longer
    const differs = (a: number, b: number) => Math.abs(a - b) > limits.RESIZED_SHARE * a;
    if (
      differs(Math.max(writtenWidthPx, writtenHeightPx), Math.max(widthPx, heightPx)) ||
      differs(Math.min(writtenWidthPx, writtenHeightPx), Math.min(widthPx, heightPx))
    ) {
      findings.push({
        code: 'resized',
        severity: 'caution',
        writtenWidthPx,
        writtenHeightPx,
        widthPx,
        heightPx,
      });
    }
  }
  return findings;
}

function neutralFindings({ greyCard }: PhotoQualityContext): QualityFinding[] {
  if (!greyCard) return [];
  if (!greyCard.found) return [{ code: 'no-neutral-reference', severity: 'note' }];
  return greyCard.warnings.map((warning) => ({
    code: 'neutral-reference-unusable',
    severity: 'note',
    warning,
  }));
}
