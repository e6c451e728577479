import type { FrameFinding, FrameWarning } from '../frame/findFrame.ts';
import type { MixedDevicesFinding } from '../quality/mixedDevices.ts';
import type { PhotoQuality, QualityFinding } from '../quality/photoQuality.ts';
import * as limits from '../quality/qualityThresholds.ts';
import { catalogue } from './catalogue.ts';
import { formatCount, formatLength, formatPercent, formatQuantity } from './format.ts';

const SIDES = ['top', 'right', 'bottom', 'left'];

/** The verdict in a word or two. */
export const qualityVerdictText: Readonly<Record<PhotoQuality['verdict'], string>> = catalogue(
  'qualityVerdictText',
  {
    good: 'Good photo',
    usable: 'Usable, with care',
    retake: 'Take it again',
  },
);

/** What is the matter with a photo and what to do, without its name. */
export const qualityFindingText = catalogue('qualityFindingText', (finding: QualityFinding): string => {
  switch (finding.code) {
    case 'blurred':
      return (
        `Blurred: the finest detail is ${formatLength(finding.detailMm)} mm wide, sharp photos show 1 mm. ` +
        'Wipe the lens, tap the turf to focus, hold still and take it again.'
      );
    case 'noisy':
      return (
        `Grainy: colours jump by ${formatCount(Math.round(finding.noiseLevels))} levels from pixel to pixel. ` +
        'There was little light; wait for more, or hold the phone steady with both hands.'
      );
    case 'lights-clipped':
      return (
        `${formatPercent(finding.fraction)} % of the turf is so bright that it shows no colour. ` +
        'Lower the exposure (tap, then drag down) or shade the whole frame, and take it again.'
      );
    case 'shadows-clipped':
      return (
        `${formatPercent(finding.fraction)} % of the turf is so dark that it shows no colour. ` +
        'Raise the exposure or wait for softer light, and take it again.'
      );
    case 'too-dark':
      return 'Underexposed: the turf is too dark. Tap the turf, raise the exposure and take it again.';
    case 'too-light':
      return 'Overexposed: the turf is too light. Tap the turf, lower the exposure and take it again.';
    case 'tilted':
      return (
        `The camera was tilted by about ${formatCount(Math.round(finding.tiltDegrees))}°. ` +
        'Seen from the side, leaves hide the ground between them: hold the phone level above the middle of the frame.'
      );
    case 'few-pixels':
      return (
        `A pixel is ${formatLength(finding.millimetresPerPixel)} mm of ground, so a leaf is only ` +
        `${formatLength(finding.pixelsPerBlade)} pixels wide. Go closer, fill the picture with the frame, or set the camera to full size.`
      );
    case 'shadow-across':
      return (
        `A hard shadow lies across ${formatPercent(finding.darkFraction)} % of the frame; the rest has ` +
        `${formatLength(finding.lightRatio)} times its light. Step aside so that your shadow falls outside, or shade the whole frame.`
      );
    case 'very-wide-lens':
      return (
        `Taken with a very wide lens (${formatCount(Math.round(finding.focalLength35Mm))} mm in 35 mm film), which bends lines and looks ` +
        'at the edges from the side. Use the main camera (1×).'
      );
    case 'digital-zoom':
      return `Digital zoom of ${formatLength(finding.ratio)}× adds no detail. Zoom out to 1× and go closer.`;
    case 'strongly-compressed':
      return (
        `The file is strongly compressed (quality about ${formatCount(finding.quality)} of 100), as after sending it by a messenger. ` +
        'Copy the original from the phone by cable or as a file.'
      );
    case 'resized':
      return (
        `The camera wrote ${formatCount(finding.writtenWidthPx)} × ${formatCount(finding.writtenHeightPx)} pixels, this file has ` +
        `${formatCount(finding.widthPx)} × ${formatCount(finding.heightPx)}. It was cropped or made smaller on its way: use the original.`
      );
    case 'camera-facts-lost':
      return 'The file holds no facts of the camera, as after sending it by a messenger or editing it. Use the original, if there is one.';
    case 'no-neutral-reference':
      return 'No grey card was found. Colours of different light are compared better with one in each photo.';
    case 'neutral-reference-unusable':
      return finding.warning === 'grey-card-too-light'
        ? 'The grey card is too bright to balance colours by. Keep it out of glare, or lower the exposure.'
        : 'The grey card is too dark to balance colours by. Keep it out of shadow, or raise the exposure.';
  }
});

/** A measure of a photo in words, with the limits it is judged by; the last two are null where there is none. */
export interface QualityRow {
  readonly name: string;
  readonly value: string;
  readonly caution: string | null;
  readonly retake: string | null;
}

/** What was measured of a photo beside its limits; measures that cannot be known are left out. */
export const qualityRows = catalogue('qualityRows', ({ measures }: PhotoQuality): readonly QualityRow[] => {
  const { detail, millimetresPerPixel, tiltDegrees, shadow } = measures;
  const mm = (value: number) => `${value.toFixed(2)} mm`;
  const percent = (fraction: number) => `${formatPercent(fraction)} %`;
  const level = (value: number) => `${formatCount(value)} of 255`;
  const degrees = (value: number) => `${formatCount(Math.round(value))}°`;
  const rows: QualityRow[] = [];
  if (detail && millimetresPerPixel !== null) {
    rows.push({
      name: 'Finest detail',
      value: mm(detail.detailPx * millimetresPerPixel),
      caution: `> ${mm(limits.SOFT_DETAIL_MM)}`,
      retake: `> ${mm(limits.BLURRED_DETAIL_MM)}`,
    });
    rows.push({
      name: 'Grain',
      value: `${formatLength(detail.noiseLevels)} levels`,
      caution: `> ${formatLength(limits.NOISY_LEVELS)}`,
      retake: null,
    });
  }
  if (millimetresPerPixel !== null) {
    rows.push({
      name: 'Ground in a pixel',
      value: mm(millimetresPerPixel),
      caution: `> ${mm(limits.FEW_PIXELS_MM)}`,
      retake: `> ${mm(limits.BLADE_WIDTH_MM)}`,
    });
  }
  rows.push(
    {
      name: 'Too bright',
      value: percent(measures.clippedLightsFraction),
      caution: `> ${percent(limits.CLIPPED_LIGHTS.caution)}`,
      retake: `> ${percent(limits.CLIPPED_LIGHTS.retake)}`,
    },
    {
      name: 'Too dark',
      value: percent(measures.clippedShadowsFraction),
      caution: `> ${percent(limits.CLIPPED_SHADOWS.caution)}`,
      retake: `> ${percent(limits.CLIPPED_SHADOWS.retake)}`,
    },
    {
      name: 'Middle of green',
      value: level(measures.medianGreen),
      caution: `< ${limits.DARK_MEDIAN.caution}, > ${limits.LIGHT_MEDIAN.caution}`,
      retake: `< ${limits.DARK_MEDIAN.retake}, > ${limits.LIGHT_MEDIAN.retake}`,
    },
  );
  if (tiltDegrees !== null) {
    rows.push({
      name: 'Tilt',
      value: degrees(tiltDegrees),
      caution: `> ${degrees(limits.TILT_DEGREES.caution)}`,
      retake: `> ${degrees(limits.TILT_DEGREES.retake)}`,
    });
  }
  rows.push({
    name: 'Light over shadow',
    value: `${shadow.lightRatio.toFixed(2)} times`,
    caution: null,
    retake: `> ${limits.SHADOW_RATIO.toFixed(2)}`,
  });
  return rows;
});

/** Words round the verdict. */
export const qualityWords = catalogue('qualityWords', {
  title: 'Photo quality',
  numbers: 'Numbers and limits',
  caption: 'What was measured of the photo, and the limits it is judged by',
  measure: 'Measure',
  value: 'Here',
  caution: 'Care from',
  retake: 'Again from',
  goodSoFar: 'Good, as far as can be told',
  noScale: 'Sharpness and scale are not judged: the size of the frame is not known.',
  nothing: 'Nothing speaks against measuring it.',
  judging: 'Looking the photo over…',
} as const);

/** A warning about a frame that was found, and what to do. */
export const frameWarningText = catalogue('frameWarningText', (warning: FrameWarning): string => {
  switch (warning.code) {
    case 'frame-side-hidden':
      return (
        `Only ${formatPercent(warning.seenFraction)} % of the frame's ${SIDES[warning.side]} side is seen. ` +
        'Check its line; next time press the grass down and keep feet off the frame.'
      );
    case 'frame-side-uncertain':
      return `The inner edge of the frame's ${SIDES[warning.side]} side is ragged. Check its line and drag the corners if it is off.`;
    case 'frame-side-faint':
      return `The frame's ${SIDES[warning.side]} side hardly differs from the turf in colour. Check its line; a lighter frame is found more surely.`;
    case 'second-frame':
      return 'Two frames are in the photo. Check that the right one is marked.';
    case 'frame-ambiguous':
      return 'Other lines in the photo would make a frame as well. Check the corners.';
  }
});

/** Why no frame was found, and what to do. */
export const frameMissingText = catalogue(
  'frameMissingText',
  (reason: Extract<FrameFinding, { found: false }>['reason']): string => {
    return reason === 'frame-cut-off'
      ? 'The frame reaches out of the photo. Take it again with all four corners in the picture, or mark the area by hand.'
      : 'No frame was found. Mark its inner corners by hand, or measure the whole photo.';
  },
);

/** Photos of a rating date from several cameras. */
export const mixedDevicesText = catalogue('mixedDevicesText', ({ devices }: MixedDevicesFinding): string => {
  const parts = devices.map(
    ({ device, photos }) => `${device} (${formatQuantity(photos, 'photo', 'photos')})`,
  );
  return (
    `Photos of this date come from ${formatCount(devices.length)} cameras: ${parts.join(', ')}. ` +
    'Their colours differ: paint strokes on photos of each, and check whether a treatment was taken with one of them only.'
  );
});
