import { analysisGridFor } from '../features/analysisGrid.ts';
import { labPlanes } from '../features/labPlanes.ts';
import type { LabPlanes } from '../features/labRows.ts';
import { LAB_UNIT, RELATIVE_UNIT, relativeChroma } from '../features/logLightness.ts';
import { takeShare } from '../mask/takeShare.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { Classification, ClassifyOptions, ClassifyRequest, CoverFlag } from './classification.ts';
import { classifiedCells } from './classifiedCells.ts';
import { fitGround, type GroundFit } from './groundFit.ts';
import {
  GAP_SHARE,
  GAP_TEXTURE,
  GROUND_RANK_LIGHTNESS_FACTOR,
  LARGEST_BETWEEN_SHARE,
  LEAST_CLOSED_CANOPY,
  LEAST_COLOUR,
  LEAST_CONTRAST,
  LEAST_PIXELS,
  LEAST_SHARE,
  LIGHT_RANK_B_FACTOR,
  LIGHT_RANK_LIGHTNESS_FACTOR,
  PALE_GREENNESS,
  PALE_LIGHTNESS,
  TWO_KINDS_NATS,
} from './startConstants.ts';
import { type CanopyTones, fitCanopyTones, NO_TONE } from './toneFit.ts';

/** Name and version of the start model, kept with every figure it gives. */
export const START_MODEL_ID = 'start-1';

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
  if (classes.length > found(roles)) flags.push('class-without-strokes');
  if (area.measuredPixels < LEAST_PIXELS) flags.push('too-few-pixels');
  const ground = fitGround(planes);
  if (isGrey(planes)) flags.push('no-colour');
  if (ground.kinds.betweenShare > LARGEST_BETWEEN_SHARE) flags.push('uncertain');
  await betweenStrips?.((1 + PIXEL_PART) / 2);

  const canopy = fitCanopyTones(planes, vegetationCells(planes, ground));
  const groundShare = groundShareOf(ground, canopy, flags);
  const lightShare = lightShareOf(canopy, groundShare, flags);

  const labels = drawLabels(planes, ground, canopy, roles, groundShare, lightShare);
  return classifiedCells({ labels, grid, groundWeight: planes.groundWeight }, request, flags);
}

/** Labels of the three parts; 0 where the run has no class for one, so that the others take its place. */
interface Roles {
  readonly dark: number;
  readonly light: number;
  readonly ground: number;
}

/** How many classes the start model can find. */
const found = ({ dark, light, ground }: Roles): number =>
  Number(dark > 0) + Number(light > 0) + Number(ground > 0);

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
  if (fit.gainNats < TWO_KINDS_NATS || fit.contrast < LEAST_CONTRAST || fit.lightShare < LEAST_SHARE) {
    flags.push('no-second-kind');
    return 0;
  }
  return fit.lightShare;
}

/** Draws the cells' labels so that their ground adds up to the shares. */
function drawLabels(
  planes: LabPlanes,
  ground: GroundFit,
  canopy: CanopyTones,
  roles: Roles,
  groundShare: number,
  lightShare: number,
): Uint8Array<ArrayBuffer> {
  const { measured, groundWeight } = planes;
  const cells = measured.length;
  const isGround =
    roles.ground === 0
      ? new Uint8Array(cells)
      : takeShare(groundRanks(planes, ground), groundWeight, groundShare);
  const left = new Int32Array(cells);
  for (let cell = 0; cell < cells; cell += 1) if (isGround[cell] === 0) left[cell] = groundWeight[cell]!;
  const share = roles.light === 0 ? 0 : roles.dark === 0 ? 1 : lightShare;
  const isLight = share === 0 ? new Uint8Array(cells) : takeShare(lightRanks(planes, canopy), left, share);

  const darkLabel = roles.dark || roles.light || roles.ground;
  const labels = new Uint8Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    if (measured[cell] === 0) continue;
    labels[cell] = isGround[cell] === 1 ? roles.ground : isLight[cell] === 1 ? roles.light : darkLabel;
  }
  return labels;
}

/** The middle of the ranks 0..65535; they reach 8 plain units of 1 / RELATIVE_UNIT to either side. */
const MIDDLE_RANK = 32768;

/** Least green and darkest first. */
function groundRanks({ logLightness }: LabPlanes, { score, kinds }: GroundFit): Uint16Array<ArrayBuffer> {
  const ranks = new Uint16Array(score.length);
  const shift = MIDDLE_RANK - kinds.low.mean * RELATIVE_UNIT;
  for (let cell = 0; cell < ranks.length; cell += 1) {
    const rank = (score[cell]! + shift - GROUND_RANK_LIGHTNESS_FACTOR * logLightness[cell]!) | 0;
    ranks[cell] = Math.max(0, Math.min(65535, rank));
  }
  return ranks;
}

/** Lightest and yellowest first: mostly by the neighbourhood, a little by the cell itself. */
function lightRanks(
  { lightness, bStar, logLightness, grid }: LabPlanes,
  { tone, side, widthBlocks, fit }: CanopyTones,
): Uint16Array<ArrayBuffer> {
  const { widthCells, heightCells } = grid;
  const ranks = new Uint16Array(widthCells * heightCells);
  const darkTone = (fit ? fit.dark : 0) * RELATIVE_UNIT;
  const shift = MIDDLE_RANK - 4 * RELATIVE_UNIT * LIGHT_RANK_LIGHTNESS_FACTOR;
  for (let y = 0; y < heightCells; y += 1) {
    const firstBlock = Math.floor(y / side) * widthBlocks;
    for (let block = 0; block < widthBlocks; block += 1) {
      const around = tone[firstBlock + block]!;
      const start = (around === NO_TONE ? 0 : around - darkTone) + shift;
      const end = y * widthCells + Math.min(widthCells, (block + 1) * side);
      for (let cell = y * widthCells + block * side; cell < end; cell += 1) {
        const own =
          LIGHT_RANK_LIGHTNESS_FACTOR * logLightness[cell]! +
          LIGHT_RANK_B_FACTOR * relativeChroma(bStar[cell]!, lightness[cell]!);
        const rank = (start + own) | 0;
        ranks[cell] = Math.max(0, Math.min(65535, rank));
      }
    }
  }
  return ranks;
}

/** Every so many-th cell tells whether a photo has colour. */
const COLOUR_STEP = 7;

function isGrey({ aStar, bStar, measured }: LabPlanes): boolean {
  let colour = 0;
  let cells = 0;
  for (let cell = 0; cell < measured.length; cell += COLOUR_STEP) {
    if (measured[cell] === 0) continue;
    colour += Math.abs(aStar[cell]!) + Math.abs(bStar[cell]!);
    cells += 1;
  }
  return colour < LEAST_COLOUR * LAB_UNIT * cells;
}
