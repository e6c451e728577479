import type { Application } from './application.ts';
import { siQuantity } from './quantity.ts';
import type { UnitKind } from './unit.ts';

/** A rate to be asked about: unlike the other rates of its product, so that a slip of a digit or a unit is likely. */
export type RateQuery = {
  readonly application: string;
  readonly product: string;
  /** Index of the product in its application. */
  readonly index: number;
} & (
  | {
      readonly code: 'rate-unlike-others';
      /** This rate over the middle one of the others, both in SI units. */
      readonly timesOthers: number;
      readonly others: number;
    }
  | {
      readonly code: 'rate-of-other-kind';
      readonly kind: UnitKind;
      readonly usualKind: UnitKind;
      readonly others: number;
    }
);

/**
 * Rates further apart than this ask for a look. Five lies between a real series of rates, mostly doubled, and the two common
 * slips: a digit (10 times) and per acre for per 1000 ft2 (43.56 times). The project's own choice, no source.
 */
const UNLIKE_FROM = 5;

/**
 * Rates that stand alone among the rates of the same product: fewer than half of the others are of their kind and size.
 * With only two rates far apart both are asked about, since either may be wrong. It asks; it never corrects.
 */
export function rateQueries(applications: readonly Application[]): RateQuery[] {
  const uses = applications.flatMap((application) =>
    application.products.flatMap(({ name, rate }, index) =>
      rate ? [{ application: application.id, product: name, index, si: siQuantity(rate) }] : [],
    ),
  );
  return uses.flatMap(({ application, product, index, si }): RateQuery[] => {
    const others = uses.filter(
      (other) =>
        other.product.toLowerCase() === product.toLowerCase() &&
        !(other.application === application && other.index === index),
    );
    if (others.length === 0) return [];
    const where = { application, product, index, others: others.length };
    const sameKind = others.filter((other) => other.si.kind === si.kind);
    if (2 * sameKind.length < others.length) {
      const usual = others.find((other) => other.si.kind !== si.kind)!;
      return [{ ...where, code: 'rate-of-other-kind', kind: si.kind, usualKind: usual.si.kind }];
    }
    const alike = sameKind.filter(
      (other) => Math.max(other.si.amount / si.amount, si.amount / other.si.amount) < UNLIKE_FROM,
    );
    if (2 * alike.length >= sameKind.length) return [];
    const amounts = sameKind.map((other) => other.si.amount).sort((a, b) => a - b);
    const timesOthers = si.amount / amounts[Math.floor(amounts.length / 2)]!;
    return [{ ...where, code: 'rate-unlike-others', timesOthers }];
  });
}
