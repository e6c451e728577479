import { afterEach, describe, expect, it, vi } from 'vitest';
import { kernelDifferences, randomPicture } from '../../support/kernelDifferences.ts';

describe.each([
  [53, 52, 5],
  [61, 55, 6],
  [130, 77, 7],
])('kernels on %i x %i pixels', (widthPx, heightPx, seed) => {
  it('give the bytes of plain code', () => {
    const { compared, differences } = kernelDifferences(randomPicture(widthPx, heightPx, seed), seed);
    expect(compared).toBe(4 * (3 * 6 + 5 * 3 + 2) + 4);
    expect(differences).toEqual([]);
  });
});

describe('an engine without WebAssembly', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.resetModules();
  });

  it('gets plain code, with the same result', async () => {
    const region = { widthCells: 5, heightCells: 4, measured: new Uint8Array(20).fill(1) };
    const { boxCounts } = await import('../../../src/core/features/maskedBoxMeans.ts');
    const byKernels = boxCounts(region, 1);
    vi.resetModules();
    vi.stubGlobal('WebAssembly', undefined);
    const { loadKernels } = await import('../../../src/core/kernels/kernels.ts');
    const fresh = await import('../../../src/core/features/maskedBoxMeans.ts');
    expect(loadKernels()).toBeNull();
    expect(fresh.boxCounts(region, 1)).toEqual(byKernels);
  });
});
