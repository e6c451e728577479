// The per-pixel work in WebAssembly with 128-bit vectors. AssemblyScript: reads like TypeScript, compiled by
// src/setup/kernelsPlugin.mjs. Every kernel works on addresses in its memory that the caller has laid out,
// keeps nothing
// between calls, and gives the very bytes of the plain version beside its caller in src/core.

export { boxCounts, boxMeans } from './boxMeans';
export { countLabels, groundWeights } from './countLabels';
export { labRows } from './labRows';
export { localSpread } from './localSpread';
export { scorePair } from './scorePair';

/** First address that a caller may use. */
export function heapStart(): usize {
  return (__heap_base + 15) & ~15;
}
