import { addSymmetric, type EnvelopeMatrix, envelopeMatrix, factorEnvelope } from './envelopeMatrix.ts';

/** A linear mixed model y = X b + sum of random effects + residual; variances are to be estimated. */
export interface MixedModelData {
  readonly response: readonly number[];
  /** Rows of the fixed-effects matrix: column and value of each entry that is not zero. */
  readonly rows: readonly (readonly (readonly [column: number, value: number])[])[];
  /** Number of columns; they must be independent. */
  readonly size: number;
  /** For each random effect the level of each observation. */
  readonly random: readonly { readonly name: string; readonly levels: readonly string[] }[];
}

/** Observations that share a level of some random effect, directly or through others. */
export interface ObservationGroup {
  readonly members: readonly number[];
  /** Columns of the fixed-effects matrix its members use. */
  readonly columns: readonly number[];
  /** Member x column values, row-major. */
  readonly fixed: Float64Array;
  /** For each component, residual last: member x member, 1 where the level is shared. */
  readonly structures: readonly Float64Array[];
}

/** All that the estimation and its tests need at given variances. */
export interface LikelihoodState {
  /** Inverse of X' V^-1 X, row-major: covariance of the coefficients when variances are known. */
  readonly covariance: Float64Array;
  readonly coefficients: Float64Array;
  /** -2 log residual likelihood, up to a constant. */
  readonly deviance: number;
  /** Derivative of the log residual likelihood by each variance. */
  readonly score: Float64Array;
  /** Average information of the variances, row-major. */
  readonly averageInformation: Float64Array;
  /** X' V^-1 V_r V^-1 X for each component r. */
  readonly first: readonly EnvelopeMatrix[];
  /** X' V^-1 V_r V^-1 V_s V^-1 X for r <= s, at index r * components + s. */
  readonly second: readonly (EnvelopeMatrix | undefined)[];
  /** trace(V^-1 V_r V^-1 V_s), row-major. */
  readonly traces: Float64Array;
}

/** Splits a model into independent groups. */
export function observationGroups(data: MixedModelData): ObservationGroup[] {
  const parent = data.response.map((_, index) => index);
  const find = (i: number): number => {
    let root = i;
    while (parent[root] !== root) root = parent[root]!;
    parent[i] = root;
    return root;
  };
  for (const { levels } of data.random) {
    const seen = new Map<string, number>();
    levels.forEach((level, index) => {
      const other = seen.get(level);
      if (other === undefined) seen.set(level, index);
      else parent[find(index)] = find(other);
    });
  }
  const groups = groupByRoot(parent.length, find);
  return [...groups.values()].map((members) => {
    const columns = [...new Set(members.flatMap((member) => data.rows[member]!.map(([column]) => column)))];
    const position = new Map(columns.map((column, index) => [column, index]));
    const fixed = new Float64Array(members.length * columns.length);
    members.forEach((member, i) => {
      for (const [column, value] of data.rows[member]!)
        fixed[i * columns.length + position.get(column)!]! += value;
    });
    const structures = [...data.random.map(({ levels }) => levels), null].map((levels) => {
      const structure = new Float64Array(members.length ** 2);
      members.forEach((a, i) => {
        members.forEach((b, j) => {
          if (levels ? levels[a] === levels[b] : i === j) structure[i * members.length + j] = 1;
        });
      });
      return structure;
    });
    return { members, columns, fixed, structures };
  });
}

function groupByRoot(size: number, find: (i: number) => number): Map<number, number[]> {
  const groups = new Map<number, number[]>();
  for (let i = 0; i < size; i += 1) {
    const root = find(i);
    const group = groups.get(root);
    if (group) group.push(i);
    else groups.set(root, [i]);
  }
  return groups;
}

/**
 * Residual likelihood of the variances with its derivatives; null when the fixed effects are not independent.
 *
 * @param variances of the random effects in order, then of the residual
 * @param withSecond whether the matrices of second order are wanted (for the final tests only)
 * @see Gilmour, Thompson & Cullis 1995, Biometrics 51:1440
 */
export function residualLikelihood(
  data: MixedModelData,
  groups: readonly ObservationGroup[],
  variances: readonly number[],
  withSecond: boolean,
): LikelihoodState | null {
  const parts = variances.length;
  const crossProducts = envelopeMatrix(data.size);
  const right = new Float64Array(data.size);
  const first = variances.map(() => envelopeMatrix(data.size));
  const second: (EnvelopeMatrix | undefined)[] = [];
  const traces = new Float64Array(parts * parts);
  const singleTraces = new Float64Array(parts);
  let logDeterminant = 0;
  const pieces = groups.map((group) => {
    const n = group.members.length;
    const covariance = envelopeMatrix(n);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const value = variances.reduce(
          (sum, variance, r) => sum + variance * group.structures[r]![i * n + j]!,
          0,
        );
        if (value !== 0) addSymmetric(covariance, i, j, value);
      }
    }
    const factor = factorEnvelope(covariance);
    if (!factor) return null;
    logDeterminant += factor.logDeterminant;
    const inverse = factor.inverse();
    const scaled = multiply(inverse, group.fixed, n, n, group.columns.length);
    const y = Float64Array.from(group.members, (member) => data.response[member]!);
    addCross(crossProducts, group, group.fixed, scaled, n);
    group.columns.forEach((column, c) => {
      for (let i = 0; i < n; i += 1) right[column]! += scaled[i * group.columns.length + c]! * y[i]!;
    });
    const turned = group.structures.map((structure) =>
      multiply(structure, scaled, n, n, group.columns.length),
    );
    turned.forEach((matrix, r) => {
      addCross(first[r]!, group, scaled, matrix, n);
    });
    const products = group.structures.map((structure) => multiply(inverse, structure, n, n, n));
    products.forEach((product, r) => {
      for (let i = 0; i < n; i += 1) singleTraces[r]! += product[i * n + i]!;
      if (withSecond) {
        for (let s = 0; s < parts; s += 1) traces[r * parts + s]! += traceOfProduct(product, products[s]!, n);
        for (let s = r; s < parts; s += 1) {
          second[r * parts + s] ??= envelopeMatrix(data.size);
          const inner = multiply(inverse, turned[s]!, n, n, group.columns.length);
          addCross(second[r * parts + s]!, group, turned[r]!, inner, n);
        }
      }
    });
    return { group, inverse, y };
  });
  const factor = factorEnvelope(crossProducts);
  if (!factor || pieces.some((piece) => piece === null)) return null;
  const covariance = factor.inverse();
  const coefficients = factor.solve(right);
  let quadratic = 0;
  // P y, then V_r P y for each component
  const weighted = new Float64Array(data.response.length);
  const working = variances.map(() => new Float64Array(data.response.length));
  for (const piece of pieces) {
    const { group, inverse, y } = piece!;
    const n = group.members.length;
    const width = group.columns.length;
    const residual = y.map((value, i) => {
      let fitted = 0;
      for (let c = 0; c < width; c += 1)
        fitted += group.fixed[i * width + c]! * coefficients[group.columns[c]!]!;
      return value - fitted;
    });
    const own = multiply(inverse, residual, n, n, 1);
    own.forEach((value, i) => {
      quadratic += value * residual[i]!;
      weighted[group.members[i]!] = value;
    });
    group.structures.forEach((structure, r) => {
      multiply(structure, own, n, n, 1).forEach((value, i) => {
        working[r]![group.members[i]!] = value;
      });
    });
  }
  const score = Float64Array.from(variances, (_, r) => {
    const trace = singleTraces[r]! - traceWithEnvelope(covariance, first[r]!);
    const form = working[r]!.reduce((sum, value, i) => sum + value * weighted[i]!, 0);
    return -0.5 * (trace - form);
  });
  const projected = working.map((vector) =>
    project(vector, data, pieces as NonNullable<(typeof pieces)[number]>[], factor.solve),
  );
  const averageInformation = new Float64Array(parts * parts);
  for (let r = 0; r < parts; r += 1) {
    for (let s = 0; s < parts; s += 1) {
      averageInformation[r * parts + s] =
        0.5 * working[r]!.reduce((sum, value, i) => sum + value * projected[s]![i]!, 0);
    }
  }
  const deviance = logDeterminant + factor.logDeterminant + quadratic;
  return { covariance, coefficients, deviance, score, averageInformation, first, second, traces };
}

/** P v = V^-1 (v - X (X' V^-1 X)^-1 X' V^-1 v). */
function project(
  vector: Float64Array,
  data: MixedModelData,
  pieces: readonly { readonly group: ObservationGroup; readonly inverse: Float64Array }[],
  solve: (right: ArrayLike<number>) => Float64Array,
): Float64Array {
  const right = new Float64Array(data.size);
  const inner = new Float64Array(vector.length);
  for (const { group, inverse } of pieces) {
    const n = group.members.length;
    const own = multiply(
      inverse,
      Float64Array.from(group.members, (member) => vector[member]!),
      n,
      n,
      1,
    );
    own.forEach((value, i) => {
      inner[group.members[i]!] = value;
      for (const [column, weight] of data.rows[group.members[i]!]!) right[column]! += weight * value;
    });
  }
  const coefficients = solve(right);
  const out = new Float64Array(vector.length);
  for (const { group, inverse } of pieces) {
    const n = group.members.length;
    const fitted = Float64Array.from(group.members, (member) =>
      data.rows[member]!.reduce((sum, [column, weight]) => sum + weight * coefficients[column]!, 0),
    );
    multiply(inverse, fitted, n, n, 1).forEach((value, i) => {
      out[group.members[i]!] = inner[group.members[i]!]! - value;
    });
  }
  return out;
}

/** trace(A B) of a full symmetric matrix with an envelope matrix. */
export function traceWithEnvelope(full: Float64Array, envelope: EnvelopeMatrix): number {
  const { size, values, first } = envelope;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = first[i]!; j < i; j += 1) sum += 2 * full[i * size + j]! * values[i * size + j]!;
    sum += full[i * size + i]! * values[i * size + i]!;
  }
  return sum;
}

/** Adds the symmetric part of left' right, rows x columns each. Writes to `target`. */
function addCross(
  target: EnvelopeMatrix,
  group: ObservationGroup,
  left: Float64Array,
  right: Float64Array,
  rows: number,
): void {
  const width = group.columns.length;
  for (let a = 0; a < width; a += 1) {
    for (let b = 0; b < width; b += 1) {
      let sum = 0;
      for (let row = 0; row < rows; row += 1) sum += left[row * width + a]! * right[row * width + b]!;
      if (sum !== 0) addSymmetric(target, group.columns[a]!, group.columns[b]!, a === b ? sum : sum / 2);
    }
  }
}

/** a (n x m) times b (m x k), row-major. */
export function multiply(a: Float64Array, b: Float64Array, n: number, m: number, k: number): Float64Array {
  const out = new Float64Array(n * k);
  for (let i = 0; i < n; i += 1) {
    for (let l = 0; l < m; l += 1) {
      const value = a[i * m + l]!;
      if (value === 0) continue;
      for (let j = 0; j < k; j += 1) out[i * k + j]! += value * b[l * k + j]!;
    }
  }
  return out;
}

function traceOfProduct(a: Float64Array, b: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) sum += a[i * n + j]! * b[j * n + i]!;
  return sum;
}
