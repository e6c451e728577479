import { inflateRawSync } from 'node:zlib';
import type { Page } from '@playwright/test';
import type { MeasureSettings } from '../../src/core/cover/measurePhoto.ts';
import { applyPatchToLayer } from '../../src/core/mask/applyPatch.ts';
import { correctedMask } from '../../src/core/mask/correctedMask.ts';
import { decodeCorrections, decodePatch, encodeCorrections } from '../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../src/core/mask/correctionLayer.ts';
import type { LabelMask } from '../../src/core/raster/labelMask.ts';
import { decodeLabelRuns } from '../../src/core/raster/labelRuns.ts';

/** What the browser's database holds of the corrections of its one photo. */
export interface StoredState {
  readonly revision: number;
  /** Base64; empty before the first gesture. */
  readonly layer: string;
  /** Patches in force, in order, base64. */
  readonly patches: readonly string[];
  /** What the automatic mask was made with. */
  readonly settings: MeasureSettings;
  readonly automatic: {
    readonly widthPx: number;
    readonly heightPx: number;
    readonly runs: string;
  };
}

/** Reads the database beside the program. */
export function readStore(page: Page): Promise<StoredState> {
  return page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const base64 = (bytes: ArrayBuffer) => {
      let text = '';
      for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
      return btoa(text);
    };
    const database = await asked(indexedDB.open('swardbook'));
    const all = async (name: string) => asked(database.transaction(name).objectStore(name).getAll());
    const [corrections] = await all('corrections');
    const patches = await all('correctionPatches');
    const [mask] = await all('automaticMasks');
    const figures = await all('figures');
    database.close();
    return {
      revision: corrections?.revision ?? 0,
      layer: corrections ? base64(corrections.layer) : '',
      patches: patches
        .filter(({ undone }) => !undone)
        .sort((a, b) => a.sequence - b.sequence)
        .map(({ patch }) => base64(patch)),
      settings: figures.find(({ id }) => id === mask.figureId).settings,
      automatic: { widthPx: mask.widthPx, heightPx: mask.heightPx, runs: base64(mask.bytes) },
    };
  });
}

const bytesOf = (base64: string) => new Uint8Array(Buffer.from(base64, 'base64'));

/** The layer that the stored gestures add up to, base64: the store is whole where this is the stored layer. */
export function layerOfPatches({ automatic, patches }: StoredState): string {
  const layer = emptyCorrections(automatic.widthPx, automatic.heightPx);
  for (const patch of patches) {
    const decoded = decodePatch(bytesOf(patch), layer);
    if (!decoded.ok) throw new Error(`a stored gesture cannot be read: ${decoded.problem.code}`);
    applyPatchToLayer(layer, decoded.value);
  }
  return patches.length === 0 ? '' : Buffer.from(encodeCorrections(layer)).toString('base64');
}

/** The mask that counts with a layer over the stored automatic mask. */
export function maskWith(layer: string, { automatic }: StoredState, classCount: number): LabelMask {
  const { widthPx, heightPx, runs } = automatic;
  const labels = decodeLabelRuns(new Uint8Array(inflateRawSync(bytesOf(runs))), widthPx, heightPx);
  if (!labels) throw new Error('the stored automatic mask cannot be read');
  const size = { widthPx, heightPx };
  if (layer === '') return { ...size, labels };
  const decoded = decodeCorrections(bytesOf(layer), size);
  if (!decoded.ok) throw new Error(`stored corrections cannot be read: ${decoded.problem.code}`);
  return correctedMask({ ...size, labels }, decoded.value, classCount).effective;
}
