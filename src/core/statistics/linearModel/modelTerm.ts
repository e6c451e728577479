import { mean } from '../mean.ts';
/** A classification of the observations: block, treatment, rate, rating date. */
export interface Factor {
  readonly name: string;
  /** One level for each observation. */
  readonly values: readonly string[];
}

/** A term of a linear model beside the intercept: a factor, an interaction of factors, or a covariate. */
export type ModelTerm =
  | { readonly name: string; readonly factors: readonly Factor[] }
  | { readonly name: string; readonly covariate: readonly number[] };

/** Which columns of the design a term fills: from..to, `to` excluded. */
export interface TermColumns {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/** Columns of a linear model, intercept first, factors coded to sum to zero. */
export interface DesignColumns {
  readonly columns: readonly Float64Array[];
  readonly terms: readonly TermColumns[];
  /**
   * The row of coefficients for a mean at given levels: factors not named are averaged with equal weights over their levels,
   * covariates stand at their mean.
   */
  readonly meanRow: (levels: ReadonlyMap<string, string>) => Float64Array;
}

/** Levels of a factor in order of first appearance. */
export function levelsOf(values: readonly string[]): string[] {
  return [...new Set(values)];
}

/**
 * Lays out the columns of a linear model.
 *
 * Sum-to-zero coding makes an equally weighted average over a factor a row of zeros, so least-squares means need no averaging.
 *
 * @param size number of observations
 */
export function designColumns(terms: readonly ModelTerm[], size: number): DesignColumns {
  const columns: Float64Array[] = [new Float64Array(size).fill(1)];
  const placed: TermColumns[] = [];
  const rowParts: ((levels: ReadonlyMap<string, string>) => Float64Array)[] = [];
  const codings = new Map<string, Coding>();
  for (const term of terms) {
    const from = columns.length;
    if ('covariate' in term) {
      const centre = mean(term.covariate);
      columns.push(Float64Array.from(term.covariate, (value) => value - centre));
      rowParts.push(() => new Float64Array(1));
    } else {
      const parts = term.factors.map((factor) => {
        const known = codings.get(factor.name) ?? coding(factor.values);
        codings.set(factor.name, known);
        return { factor, known };
      });
      const width = parts.reduce((product, part) => product * part.known.width, 1);
      const block = Array.from({ length: width }, () => new Float64Array(size));
      for (let i = 0; i < size; i += 1) {
        const row = parts.reduce<number[]>(
          (row, { factor, known }) => outer(row, known.rowOf(factor.values[i]!)),
          [1],
        );
        for (let j = 0; j < width; j += 1) block[j]![i] = row[j]!;
      }
      columns.push(...block);
      rowParts.push((levels) =>
        Float64Array.from(
          parts.reduce<number[]>(
            (row, { factor, known }) => outer(row, known.rowOf(levels.get(factor.name))),
            [1],
          ),
        ),
      );
    }
    placed.push({ name: term.name, from, to: columns.length });
  }
  const meanRow = (levels: ReadonlyMap<string, string>): Float64Array => {
    const row = new Float64Array(columns.length);
    row[0] = 1;
    placed.forEach((term, index) => {
      row.set(rowParts[index]!(levels), term.from);
    });
    return row;
  };
  return { columns, terms: placed, meanRow };
}

interface Coding {
  readonly width: number;
  /** Codes of a level; of no level, the average over all levels. */
  readonly rowOf: (level: string | undefined) => number[];
}

function coding(values: readonly string[]): Coding {
  const levels = levelsOf(values);
  const position = new Map(levels.map((level, index) => [level, index]));
  const width = levels.length - 1;
  return {
    width,
    rowOf: (level) => {
      if (level === undefined) return new Array<number>(width).fill(0);
      const at = position.get(level);
      if (at === undefined) throw new RangeError(`level ${level} is not among ${levels.join(', ')}`);
      if (at === width) return new Array<number>(width).fill(-1);
      return Array.from({ length: width }, (_, j) => (j === at ? 1 : 0));
    },
  };
}

function outer(a: readonly number[], b: readonly number[]): number[] {
  return a.flatMap((x) => b.map((y) => x * y));
}
