import { expect, test } from 'vitest';
import { siQuantity } from '../../../src/core/trial/quantity.ts';
import { readUnit, SI_UNIT, type UnitKind, unitsOfKind } from '../../../src/core/trial/unit.ts';
import reference from '../../reference-values/units.json' with { type: 'json' };

const { factors } = reference.values;

/** Factors as written in the reference file: to the unit beside it, and what makes of that the unit of this program. */
test.each([
  ['oz (weight)/acre', factors.oz_per_acre_to_g_per_ha / 1000, 'kg/ha'],
  ['lb/acre', factors.lb_per_acre_to_kg_per_ha, 'kg/ha'],
  ['fl oz/acre', factors.floz_per_acre_to_L_per_ha, 'L/ha'],
  ['pt/acre', factors.pt_per_acre_to_L_per_ha, 'L/ha'],
  ['qt/acre', factors.qt_per_acre_to_L_per_ha, 'L/ha'],
  ['gal/acre', factors.gal_per_acre_to_L_per_ha, 'L/ha'],
  ['gpa', factors.gal_per_acre_to_L_per_ha, 'L/ha'],
  ['lb/1000 ft2', factors.lb_per_1000ft2_to_kg_per_ha, 'kg/ha'],
  ['oz wt/1000 ft2', factors.oz_per_1000ft2_to_kg_per_ha, 'kg/ha'],
  ['fl oz/1000 ft2', factors.floz_per_1000ft2_to_L_per_ha, 'L/ha'],
  ['gal/1000 ft2', factors.gal_per_1000ft2_to_L_per_ha, 'L/ha'],
  ['g/m2', factors.g_per_m2_to_kg_per_ha, 'kg/ha'],
  ['oz wt/gal', factors.oz_per_gal_to_g_per_L, 'g/L'],
  ['psi', factors.psi_to_kPa, 'kPa'],
  ['in', factors.in_to_mm, 'mm'],
  ['feet', reference.values.exact.foot_m * 1000, 'mm'],
  [
    'imp gal/acre',
    (reference.values.exact.imperial_gallon_L / reference.values.exact.acre_international_m2) * 10_000,
    'L/ha',
  ],
  ['mph', factors.mph_to_km_h, 'km/h'],
])('1 %s is %f %s', (unit, expected, si) => {
  const quantity = siQuantity({ amount: 1, unit });
  expect(quantity.unit).toBe(si);
  expect(Math.abs(quantity.amount / expected - 1)).toBeLessThan(1e-12);
});

test('worked rates of the reference file', () => {
  expect(siQuantity({ amount: 1.5, unit: 'fl oz per 1,000 sq ft' }).amount).toBeCloseTo(4.77490234375, 12);
  expect(siQuantity({ amount: 2, unit: 'gal/1000 ft²' }).amount).toBeCloseTo(814.91666666667, 9);
  expect(siQuantity({ amount: 87, unit: 'gpa' }).amount).toBeCloseTo(813.79419191919, 9);
  expect(siQuantity({ amount: 4, unit: 'ounces weight/acre' }).amount * 1000).toBeCloseTo(280.21278904861, 9);
  expect(siQuantity({ amount: 32, unit: 'fl. oz./ac' }).amount).toBeCloseTo(2.3384890572391, 12);
});

test('per acre and per 1000 square feet differ by 43.56', () => {
  const perAcre = siQuantity({ amount: 43.56, unit: 'fl oz/acre' }).amount;
  expect(perAcre).toBeCloseTo(siQuantity({ amount: 1, unit: 'fl oz/1000 ft2' }).amount, 12);
});

test.each(['oz/acre', 'oz./A', 'ounces per acre', 'OZ/1000 sq ft', 'oz/gal'])(
  'plain "%s" is asked about',
  (unit) => {
    expect(readUnit(unit)).toMatchObject({ ok: false, code: 'ounce-unclear' });
  },
);

test('the choices for a plain ounce are units themselves, a weight and a volume', () => {
  const reading = readUnit('oz/1000 sq. ft.');
  if (reading.ok || reading.code !== 'ounce-unclear') throw new Error('expected to be asked');
  expect(reading.choices.map((unit) => siQuantity({ amount: 1, unit }).kind)).toEqual([
    'mass-per-area',
    'volume-per-area',
  ]);
});

test.each(['', 'kg', 'stones/acre', 'kg/ha/day', 'per acre', 'constructor/ha', 'toString'])(
  '"%s" is no unit',
  (unit) => {
    expect(readUnit(unit)).toEqual({ ok: false, code: 'unit-unknown' });
  },
);

test.each(Object.keys(SI_UNIT) as UnitKind[])(
  'every unit offered for %s can be read, and is of that kind',
  (kind) => {
    const units = unitsOfKind(kind);
    expect(units.length).toBeGreaterThan(1);
    for (const unit of units)
      expect([unit, readUnit(unit)]).toMatchObject([unit, { ok: true, unit: { kind } }]);
    expect(siQuantity({ amount: 1, unit: SI_UNIT[kind] }).amount).toBeCloseTo(1, 12);
  },
);
