import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  classStatistics,
  logDensity,
  normalDensity,
  pooledCovariance,
  shrunkCovariance,
} from '../../../src/core/classifier/discriminant.ts';
import { invertSymmetric } from '../../../src/core/classifier/symmetricMatrix.ts';
import { fitLogistic } from '../../bench/rivals/logistic.ts';

// Fisher's iris data as scikit-learn ships them (load_iris): 150 flowers, 4 lengths in cm, 3 species
const rows = readFileSync(new URL('./fixtures/iris.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number));
const flowers = rows.map((row) => row.slice(0, 4));
const species = rows.map((row) => row[4]!);
const statistics = [0, 1, 2].map((c) =>
  classStatistics(
    flowers.filter((_, i) => species[i] === c),
    4,
  ),
);
const pooled = pooledCovariance(statistics, 4);

describe('linear discriminant of iris', () => {
  it('has the coefficients of scikit-learn', () => {
    // sklearn 1.2.1: LinearDiscriminantAnalysis(solver='lsqr').fit(X, y).coef_; it divides by n where the pooled
    // covariance here divides by n - 3, hence 150 / 147
    const expected = [
      [24.024659921347, 24.069255607745, -16.765958186677, -17.753480389351],
      [16.018580689835, 7.216846772751, 5.317807075678, 6.565540000415],
      [12.699845912017, 3.760489400077, 13.027086707689, 21.509298993284],
    ];
    const inverse = invertSymmetric(pooled, 4);
    statistics.forEach(({ mean }, c) => {
      for (let f = 0; f < 4; f += 1) {
        let coefficient = 0;
        for (let k = 0; k < 4; k += 1) coefficient += inverse[f * 4 + k]! * mean[k]!;
        expect((coefficient * 150) / 147).toBeCloseTo(expected[c]![f]!, 9);
      }
    });
  });
});

describe('quadratic discriminant of iris', () => {
  it('has the log probabilities of scikit-learn', () => {
    // sklearn 1.2.1: QuadraticDiscriminantAnalysis().fit(X, y).predict_log_proba(X[[i]])
    const expected = new Map([
      [0, [0, -58.274205378787, -93.313548379193]],
      [70, [-237.11488415263, -1.090810254473, -0.409389071479]],
      [133, [-254.071670861171, -0.502591068449, -0.928771117688]],
      [149, [-272.0410517744, -2.799825788657, -0.06274882477404]],
    ]);
    const densities = statistics.map(({ mean, scatter }) =>
      normalDensity(
        mean,
        scatter.map((value) => value / 49),
      ),
    );
    for (const [flower, logs] of expected) {
      const scores = densities.map((density) => logDensity(density, flowers[flower]!));
      const largest = Math.max(...scores);
      const total = largest + Math.log(scores.reduce((sum, s) => sum + Math.exp(s - largest), 0));
      scores.forEach((score, c) => {
        expect(score - total).toBeCloseTo(logs[c]!, 8);
      });
    }
  });

  it('lies between its own covariance and the pooled one when shrunk', () => {
    const own = statistics[0]!.scatter.map((value) => value / 49);
    expect([...shrunkCovariance(own, pooled, 0, 0)]).toEqual([...own]);
    expect([...shrunkCovariance(own, pooled, 1, 0)]).toEqual([...pooled]);
    const half = shrunkCovariance(own, pooled, 0.5, 0.1);
    expect(half[1]).toBeCloseTo(0.9 * (0.5 * own[1]! + 0.5 * pooled[1]!), 12);
    expect(half[0]).toBeCloseTo(0.9 * (0.5 * own[0]! + 0.5 * pooled[0]!) + 0.1 * pooled[0]!, 12);
  });

  it('refuses a covariance that is none', () => {
    expect(() => normalDensity(new Float64Array(2), Float64Array.of(1, 2, 2, 1))).toThrow(
      'not positive definite: pivot 1',
    );
    expect(() => pooledCovariance([classStatistics([[1, 2]], 2)], 2)).toThrow('more samples than classes');
  });
});

describe('multinomial logistic model of iris, one of the rivals in the bench', () => {
  it('has the coefficients of scikit-learn', () => {
    // sklearn 1.2.1: LogisticRegression(C=1, tol=1e-10, solver='newton-cg', max_iter=1000000).fit(X, y), which ends with
    // four to five settled digits: its solvers lbfgs and newton-cg differ by 4e-4 in the intercepts, 1e-4 elsewhere
    const expected = [
      [-0.42350992, 0.96735058, -2.517152378, -1.079336647, 9.84956805],
      [0.534461509, -0.321587855, -0.206392071, -0.944298466, 2.237205632],
      [-0.110951589, -0.645762724, 2.723544449, 2.023635113, -12.086773683],
    ];
    const { coefficients } = fitLogistic(flowers, species, 3, 1);
    // the common level of the intercepts is free: scikit-learn's add up to 0
    const level = coefficients.reduce((sum, row) => sum + row[4]! / 3, 0);
    coefficients.forEach((row, c) => {
      row.forEach((value, k) => {
        expect(Math.abs(value - (k === 4 ? level : 0) - expected[c]![k]!)).toBeLessThan(5e-4);
      });
    });
  });
});
