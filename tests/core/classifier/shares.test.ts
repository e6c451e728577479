import { describe, expect, it } from 'vitest';
import { estimateShares } from '../../../src/core/classifier/shares.ts';

const logs = (densities: readonly (readonly number[])[]) => Float64Array.from(densities.flat(), Math.log);

describe('estimateShares', () => {
  it('finds the weighted maximum of the likelihood, two classes', () => {
    // scipy 1.10: minimize_scalar(lambda p: -(w*np.log(p*D[:,0]+(1-p)*D[:,1])).sum(), bounds=(0,1), method='bounded')
    const densities = [
      [0.8, 0.1],
      [0.6, 0.3],
      [0.1, 0.9],
      [0.3, 0.5],
      [0.7, 0.2],
    ];
    const shares = estimateShares(logs(densities), [1, 2, 1, 1, 3], 2, {
      mostSteps: 10_000,
      tolerance: 1e-12,
    });
    expect(shares[0]).toBeCloseTo(0.86383251, 7);
    expect(shares[0]! + shares[1]!).toBeCloseTo(1, 12);
  });

  it('finds the maximum of the likelihood, three classes', () => {
    // scipy 1.10: minimize(lambda v: -np.log(D@[v[0],v[1],1-v[0]-v[1]]).sum(), [.3,.3], method='Nelder-Mead')
    const densities = [
      [0.7, 0.2, 0.1],
      [0.1, 0.8, 0.3],
      [0.2, 0.2, 0.9],
      [0.6, 0.5, 0.1],
      [0.3, 0.9, 0.2],
      [0.2, 0.1, 0.7],
    ];
    const shares = estimateShares(logs(densities), new Float64Array(6).fill(1), 3, {
      mostSteps: 100_000,
      tolerance: 1e-12,
    });
    expect(shares[0]).toBeCloseTo(0.19685195, 6);
    expect(shares[1]).toBeCloseTo(0.4900803, 6);
    expect(shares[2]).toBeCloseTo(0.31306775, 6);
  });

  it('undoes what equal numbers of labels do to a rare class', () => {
    // worked by hand: of members, a tenth are called with odds 9:1 for the second class, the others 9:1 against; labels
    // are right in 9 of 10 cases, so 10 % called = 0.9 p + 0.1 (1 - p) and p = 0
    const densities = Array.from({ length: 100 }, (_, i) => (i < 10 ? [0.1, 0.9] : [0.9, 0.1]));
    const shares = estimateShares(logs(densities), new Float64Array(100).fill(1), 2, {
      mostSteps: 100_000,
      tolerance: 1e-13,
    });
    expect(shares[1]).toBeLessThan(1e-3);
  });

  it('does not care about a factor common to the densities of a member, nor about the scale of weights', () => {
    const plain = estimateShares(
      logs([
        [0.8, 0.1],
        [0.2, 0.5],
      ]),
      [1, 3],
      2,
    );
    const scaled = estimateShares(
      logs([
        [8, 1],
        [0.02, 0.05],
      ]),
      [10, 30],
      2,
    );
    expect(scaled[0]).toBeCloseTo(plain[0]!, 9);
  });

  it('refuses weights that add up to nothing', () => {
    expect(() => estimateShares(logs([[1, 1]]), [0], 2)).toThrow('weights must add up to more than 0, got 0');
  });
});
