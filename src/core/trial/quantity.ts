import { z } from 'zod';
import { fault } from './fields.ts';
import { readUnit, SI_UNIT, type Unit, type UnitKind, unitsOfKind } from './unit.ts';

/** An amount as the user wrote it. What it means in other units is worked out, never stored in its place. */
export interface Quantity {
  readonly amount: number;
  readonly unit: string;
}

/** The same amount in the international unit of its kind. */
export interface SiQuantity {
  readonly kind: UnitKind;
  readonly amount: number;
  readonly unit: (typeof SI_UNIT)[UnitKind];
}

/**
 * @throws RangeError for a unit that `quantityField` would have refused
 */
export function siQuantity(quantity: Quantity): SiQuantity {
  const unit = unitOf(quantity.unit);
  return { kind: unit.kind, amount: quantity.amount * unit.factor, unit: SI_UNIT[unit.kind] };
}

function unitOf(written: string): Unit {
  const reading = readUnit(written);
  if (!reading.ok) throw new RangeError(`no unit of this record: "${written}" (${reading.code})`);
  return reading.unit;
}

/** Quantities of certain kinds, above 0: an unknown unit, a plain "oz" or a unit of another kind is a problem of `unit`. */
export function quantityField(...kinds: readonly UnitKind[]) {
  return z
    .strictObject({ amount: z.number().positive(), unit: z.string().trim().min(1) })
    .check((context) => {
      const { unit } = context.value;
      const reading = readUnit(unit);
      const allowed = () => kinds.flatMap(unitsOfKind);
      if (!reading.ok && reading.code === 'ounce-unclear') {
        context.issues.push(fault(['unit'], { code: 'ounce-unclear', choices: reading.choices }));
      } else if (!reading.ok) {
        context.issues.push(fault(['unit'], { code: 'unit-unknown', allowed: allowed() }));
      } else if (!kinds.includes(reading.unit.kind)) {
        context.issues.push(fault(['unit'], { code: 'unit-of-wrong-kind', expected: allowed() }));
      }
    });
}

/** How a product is dosed: over ground, or as a share of the spray. */
export const rateField = quantityField('mass-per-area', 'volume-per-area', 'volume-share');
