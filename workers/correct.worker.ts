import { expose, transfer } from 'comlink';
import { measuredBox, type PhotoPreparation, preparePhoto } from '../src/core/cover/measurePhoto.ts';
import type { PixelRuns } from '../src/core/geometry/pixelRuns.ts';
import { likenessField } from '../src/core/mask/colourLikeness.ts';
import { connectedPatch } from '../src/core/mask/connectedPatch.ts';
import { majorityRuns } from '../src/core/mask/smoothOutline.ts';
import type { RgbaRaster } from '../src/core/raster/rgbaRaster.ts';
import type { CorrectApi } from './correctApi.ts';
import { decodePhoto } from './decodePhoto.ts';

let photo: {
  readonly raster: RgbaRaster;
  readonly prepared: Extract<PhotoPreparation, { ok: true }>;
} | null = null;

const handOver = <T>(answer: T, ...runs: readonly PixelRuns[]): T =>
  transfer(
    answer,
    runs.map((one) => one.runs.buffer),
  );

const correctApi = {
  async read(bytes, settings) {
    photo = null;
    const decoded = await decodePhoto(new Uint8Array(bytes), measuredBox(settings));
    if (!decoded.ok) return decoded;
    const prepared = preparePhoto(decoded.raster, settings);
    if (!prepared.ok) return prepared;
    photo = { raster: decoded.raster, prepared };
    return { ok: true };
  },
  patch(mask, seed) {
    const runs = connectedPatch(mask, seed);
    return handOver(runs, runs);
  },
  majority(mask, classCount, region, radiusPx) {
    const found = majorityRuns(mask, classCount, region, radiusPx);
    return handOver(found, ...found);
  },
  async likeness(seed, box) {
    if (!photo) return null;
    const { area, neutralGains } = photo.prepared;
    const field = await likenessField(photo.raster, area, seed, { box, neutralGains });
    return field && transfer(field, [field.distance.buffer, field.stepRight.buffer, field.stepDown.buffer]);
  },
} satisfies CorrectApi;
expose(correctApi);
