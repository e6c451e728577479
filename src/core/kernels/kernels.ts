import { KERNELS_BASE64 } from 'virtual:kernels';
import { bytesFromBase64 } from './bytesFromBase64.ts';

/** The functions of src/kernels; numbers are addresses in `memory` unless src/kernels says otherwise. */
export interface Kernels {
  readonly memory: WebAssembly.Memory;
  heapStart(): number;
  boxCounts(
    measured: number,
    width: number,
    height: number,
    radius: number,
    columns: number,
    out: number,
  ): void;
  boxMeans(
    plane: number,
    counts: number,
    measured: number,
    width: number,
    height: number,
    radius: number,
    columns: number,
    out: number,
  ): void;
  localSpread(
    plane: number,
    counts: number,
    width: number,
    height: number,
    radius: number,
    scratch: number,
    out: number,
  ): void;
  scorePair(
    planes: number,
    measured: number,
    cells: number,
    size: number,
    terms: number,
    scratch: number,
    outA: number,
    outB: number,
  ): void;
  groundWeights(
    slope: number,
    atRow: number,
    left: number,
    count: number,
    largest: number,
    out: number,
  ): void;
  countLabels(
    labels: number,
    inside: number,
    weights: number,
    count: number,
    labelCount: number,
    pixels: number,
    ground: number,
  ): void;
  labRows(
    pixels: number,
    inside: number,
    widthCells: number,
    rows: number,
    factor: number,
    light: number,
    response: number,
    lastStep: number,
    logLightness: number,
    factors: number,
    lightness: number,
    aStar: number,
    bStar: number,
    logOut: number,
    measured: number,
    groundWeight: number,
  ): void;
}

let loaded: Kernels | null | undefined;

/**
 * The kernels of this thread, compiled at the first call; null where the engine has no WebAssembly with vectors: then
 * the plain versions do the same, slower.
 *
 * Their memory is shared by all callers of the thread: lay it out, run, and copy the results out without waiting.
 */
export function loadKernels(): Kernels | null {
  if (loaded !== undefined) return loaded;
  try {
    const module = new WebAssembly.Module(bytesFromBase64(KERNELS_BASE64));
    loaded = new WebAssembly.Instance(module).exports as Kernels;
  } catch {
    loaded = null;
  }
  return loaded;
}
