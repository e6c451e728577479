import { expect, it } from 'vitest';
import { measureAccuracy } from '../../bench/accuracy.ts';

// Even-numbered plots: nothing was tuned on them. One photo a rating date here; the bench has all of them.
it('comes within six points of the truth on sample photos it was not tuned on', async () => {
  const { photos } = await measureAccuracy({
    only: (photo) => photo.endsWith('_204.jpg'),
    openDataset: false,
  });
  expect(photos).toHaveLength(4);
  for (const { coverError, meanIou, flags } of photos) {
    expect(coverError).toBeLessThan(6);
    expect(meanIou).toBeGreaterThan(0.45);
    expect(flags).toEqual([]);
  }
  const mean = photos.reduce((sum, { coverError }) => sum + coverError, 0) / photos.length;
  expect(mean).toBeLessThan(3);
});
