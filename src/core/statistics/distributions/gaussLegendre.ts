/** Nodes and weights of Gauss-Legendre quadrature on -1..1. */
export interface QuadratureRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const rules = new Map<number, QuadratureRule>();

/** The Gauss-Legendre rule with the given number of nodes, by Newton's method on the Legendre polynomial; kept. */
export function gaussLegendre(size: number): QuadratureRule {
  const known = rules.get(size);
  if (known) return known;
  const nodes = new Float64Array(size);
  const weights = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (size + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step += 1) {
      let p = 1;
      let before = 0;
      for (let n = 0; n < size; n += 1) {
        const older = before;
        before = p;
        p = ((2 * n + 1) * x * before - n * older) / (n + 1);
      }
      slope = (size * (x * p - before)) / (x * x - 1);
      const move = p / slope;
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(size, rule);
  return rule;
}

/** Integral of f from low to high in equal panels of 16 nodes. */
export function integratePanels(f: (x: number) => number, low: number, high: number, panels: number): number {
  const { nodes, weights } = gaussLegendre(16);
  const half = (high - low) / (2 * panels);
  let sum = 0;
  for (let panel = 0; panel < panels; panel += 1) {
    const centre = low + half * (2 * panel + 1);
    for (let i = 0; i < nodes.length; i += 1) sum += weights[i]! * f(centre + half * nodes[i]!);
  }
  return sum * half;
}
