import { analysisGridFor } from '../features/analysisGrid.ts';
import { LAB_UNIT, type LabPlanes, labPlanes } from '../features/labPlanes.ts';
import { logLightness, RELATIVE_UNIT, relativeChroma } from '../features/logLightness.ts';
import { labelMaskFromCells } from '../mask/labelMaskFromCells.ts';
import { takeShare } from '../mask/takeShare.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { Classification, ClassifyOptions, ClassifyRequest, CoverFlag } from './classification.ts';
import { fitGround, type GroundFit } from './groundFit.ts';
import {
  GAP_SHARE,
  GAP_TEXTURE,
  GROUND_RANK_LIGHTNESS_FACTOR,
  LARGEST_BETWEEN_SHARE,
  LEAST_CLOSED_CANOPY,
  LEAST_COLOUR,
  LEAST_PIXELS,
  LEAST_SHARE,
  LIGHT_RANK_B_FACTOR,
  LIGHT_RANK_LIGHTNESS_FACTOR,
  PALE_GREENNESS,
  PALE_LIGHTNESS,
  TWO_KINDS_NATS,
} from './startConstants.ts';
import { type CanopyTones, fitCanopyTones } from './toneFit.ts';

/** Name and version of the start model, kept with every figure it gives. */
export const START_MODEL_ID = 'start-2';

/** Strips of the photo's pixels are this part of the whole work, for progress. */
const PIXEL_PART = 0.6;

/**
 * Cover without any painting.
 *
 * Two fits to the photo itself give the shares: greenness parts vegetation from ground, and the tone of the
 * vegetation's neighbourhoods parts dark from light grass. The mask is then drawn by ranking the cells, so that its
 * shares are those of the fits. docs/method.md tells the whole of it.
 *
 * @throws RangeError if no class of the run has a part in the start model
 */
export async function classifyWithStartModel(
  request: ClassifyRequest,
  options: ClassifyOptions = {},
): Promise<Classification> {
  const { raster, area, classes, neutralGains } = request;
  const { stripRows = 256, betweenStrips } = options;
  const roles = rolesOf(classes);
  const grid = analysisGridFor(area);
  const planes = await labPlanes(raster, area, grid, {
    neutralGains,
    stripRows,
    betweenStrips: betweenStrips && ((done) => betweenStrips(done * PIXEL_PART)),
  });
  await betweenStrips?.(PIXEL_PART);

  const flags: CoverFlag[] = [];
  if (area.measuredPixels < LEAST_PIXELS) flags.push('too-few-pixels');
  const ground = fitGround(planes);
  if (isGrey(planes)) flags.push('no-colour');
  if (ground.kinds.betweenShare > LARGEST_BETWEEN_SHARE) flags.push('uncertain');
  await betweenStrips?.((1 + PIXEL_PART) / 2);

  const canopy = fitCanopyTones(planes, vegetationCells(planes, ground));
  const groundShare = groundShareOf(ground, canopy, flags);
  const lightShare = lightShareOf(canopy, groundShare, flags);

  const cellLabels = drawLabels(planes, ground, canopy, roles, groundShare, lightShare);
  return {
    mask: labelMaskFromCells(cellLabels, grid, area),
    coverFraction: cellShares(cellLabels, planes.groundWeight, classes.length),
    flags,
  };
}

/** Labels of the three parts; 0 where the run has no class for one, so that the others take its place. */
interface Roles {
  readonly dark: number;
  readonly light: number;
  readonly ground: number;
}

function rolesOf(classes: readonly CoverClass[]): Roles {
  const label = (role: CoverClass['startRole']): number =>
    classes.findIndex(({ startRole }) => startRole === role) + 1;
  const roles = { dark: label('dark-grass'), light: label('light-grass'), ground: label('ground') };
  if (roles.dark + roles.light + roles.ground === 0) {
    throw new RangeError(
      'the start model needs a class with the role dark-grass, light-grass or ground, got none',
    );
  }
  return roles;
}

/** Cells nearer to the photo's vegetation than to its ground. */
function vegetationCells({ measured }: LabPlanes, { score, kinds }: GroundFit): Uint8Array<ArrayBuffer> {
  const border = ((kinds.low.mean + kinds.high.mean) / 2) * RELATIVE_UNIT;
  const vegetation = new Uint8Array(measured.length);
  for (let cell = 0; cell < measured.length; cell += 1) {
    if (measured[cell] !== 0 && score[cell]! < border) vegetation[cell] = 1;
  }
  return vegetation;
}

/** Ground seen as patches, and the gaps between leaves that are too small to show their own colour. */
function groundShareOf({ kinds }: GroundFit, { texture }: CanopyTones, flags: CoverFlag[]): number {
  const seen = kinds.high.share;
  if (seen > 1 - LEAST_SHARE) {
    flags.push('no-vegetation');
    return 1;
  }
  const leafTexture = Math.min(
    1,
    Math.max(0, (texture - GAP_TEXTURE.none) / (GAP_TEXTURE.full - GAP_TEXTURE.none)),
  );
  const patches = seen < LEAST_SHARE ? 0 : seen;
  const share = patches + GAP_SHARE * leafTexture * (1 - patches);
  if (patches === 0) flags.push('no-ground');
  return share;
}

/** Share of light grass in the vegetation, 0..1; 0 with a flag where the photo gives no reason for two kinds. */
function lightShareOf(
  { fit, closedShare, meanLogLightness, meanGreenness }: CanopyTones,
  groundShare: number,
  flags: CoverFlag[],
): number {
  if (groundShare === 1) return 0;
  const pale = meanLogLightness > PALE_LIGHTNESS && meanGreenness > PALE_GREENNESS;
  if (pale || !fit || closedShare < LEAST_CLOSED_CANOPY) {
    flags.push('seedling-stand');
    return 0;
  }
  if (fit.gainNats < TWO_KINDS_NATS || fit.contrast <= 0 || fit.lightShare < LEAST_SHARE) {
    flags.push('no-second-kind');
    return 0;
  }
  return fit.lightShare;
}

/** Draws the cells' labels so that their ground adds up to the shares. */
function drawLabels(
  planes: LabPlanes,
  { score, kinds }: GroundFit,
  { tone, fit }: CanopyTones,
  roles: Roles,
  groundShare: number,
  lightShare: number,
): Uint8Array {
  const { lightness, bStar, measured, groundWeight } = planes;
  const cells = measured.length;
  const rank = new Uint16Array(cells);
  const vegetationMean = kinds.low.mean * RELATIVE_UNIT;
  for (let cell = 0; cell < cells; cell += 1) {
    if (measured[cell] === 0) continue;
    const dark = GROUND_RANK_LIGHTNESS_FACTOR * logLightness(lightness[cell]!);
    rank[cell] = toRank(score[cell]! - vegetationMean - dark);
  }
  const isGround = roles.ground === 0 ? new Uint8Array(cells) : takeShare(rank, groundWeight, groundShare);

  const left = new Int32Array(cells);
  const darkTone = (fit ? fit.dark : 0) * RELATIVE_UNIT;
  for (let cell = 0; cell < cells; cell += 1) {
    if (measured[cell] === 0 || isGround[cell] === 1) continue;
    left[cell] = groundWeight[cell]!;
    const around = tone[cell] === 0 ? darkTone : tone[cell]!;
    rank[cell] = toRank(
      around -
        darkTone +
        LIGHT_RANK_LIGHTNESS_FACTOR * (logLightness(lightness[cell]!) - 4 * RELATIVE_UNIT) +
        LIGHT_RANK_B_FACTOR * relativeChroma(bStar[cell]!, lightness[cell]!),
    );
  }
  const isLight = takeShare(rank, left, roles.light === 0 ? 0 : roles.dark === 0 ? 1 : lightShare);

  const vegetationLabel = roles.dark || roles.light || roles.ground;
  const labels = new Uint8Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    if (measured[cell] === 0) continue;
    labels[cell] = isGround[cell] === 1 ? roles.ground : isLight[cell] === 1 ? roles.light : vegetationLabel;
  }
  return labels;
}

/** A score in units of 1 / RELATIVE_UNIT as a rank 0..65535, 8 plain units either side of 0. */
const toRank = (score: number): number => Math.max(0, Math.min(65535, Math.floor(score) + 32768));

function isGrey({ aStar, bStar, measured }: LabPlanes): boolean {
  let colour = 0;
  let cells = 0;
  for (let cell = 0; cell < measured.length; cell += 1) {
    if (measured[cell] === 0) continue;
    colour += Math.abs(aStar[cell]!) + Math.abs(bStar[cell]!);
    cells += 1;
  }
  return colour < LEAST_COLOUR * LAB_UNIT * cells;
}

/** Share of the ground of each label 1..classCount. */
function cellShares(cellLabels: Uint8Array, groundWeight: Int32Array, classCount: number): number[] {
  const sums = new Float64Array(classCount + 1);
  for (let cell = 0; cell < cellLabels.length; cell += 1) sums[cellLabels[cell]!]! += groundWeight[cell]!;
  const total = sums.reduce((sum, value) => sum + value, 0);
  return Array.from(sums.subarray(1), (sum) => sum / total);
}
