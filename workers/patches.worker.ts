import { expose } from 'comlink';
import { patchCover } from '../src/core/frame/patchCover.ts';
import { measuredArea } from '../src/core/geometry/measuredArea.ts';
import type { PatchesApi } from './patchesApi.ts';

const patchesApi = {
  patchCover: ({ mask, settings, corners, grid }) =>
    patchCover(
      mask,
      measuredArea(mask.widthPx, mask.heightPx, settings),
      corners,
      settings.classes.length,
      grid,
    ),
} satisfies PatchesApi;
expose(patchesApi);
