import { expose, transfer } from 'comlink';
import type { RgbaRaster } from '../src/core/raster/rgbaRaster.ts';
import { loadOpenCv } from '../src/vision/loadOpenCv.ts';
import { rectify } from '../src/vision/rectify.ts';

/** Starts the OpenCV runtime on the first call; measuring a photo never waits for it. */
const visionApi = {
  async rectify(...[raster, corners, view]: DropFirst<Parameters<typeof rectify>>): Promise<RgbaRaster> {
    const result = rectify(await loadOpenCv(), raster, corners, view);
    return transfer(result, [result.data.buffer]);
  },
};

type DropFirst<T extends readonly unknown[]> = T extends readonly [unknown, ...infer Rest] ? Rest : never;
export type VisionApi = typeof visionApi;
expose(visionApi);
