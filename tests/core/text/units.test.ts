import { afterEach, expect, test } from 'vitest';
import {
  setUnitSystem,
  unitSystemOf,
  usLength,
  usTemperature,
  withUsUnits,
} from '../../../src/core/text/units.ts';

afterEach(() => setUnitSystem('metric'));

test('nothing is added to metric units', () => {
  expect(usLength(500)).toBeNull();
  expect(withUsUnits('0.5 m', usLength(500))).toBe('0.5 m');
});

// inch 25.4 mm, foot 304.8 mm, exact: NIST SP 811, Appendix B; Fahrenheit there, B.8
test('US units stand behind the stored ones', () => {
  setUnitSystem('us');
  expect([12.7, 457.2, 914, 914.4, 1524].map(usLength)).toEqual(['0.5 in', '18 in', '36 in', '3 ft', '5 ft']);
  expect([0, 10, -40, 18.4].map(usTemperature)).toEqual(['32 °F', '50 °F', '-40 °F', '65.1 °F']);
  expect(withUsUnits('1.5 m', usLength(1500))).toBe('1.5 m (4.92 ft)');
});

test('the region says which', () => {
  expect(['en-US', 'en-GB', 'de', 'es-US'].map(unitSystemOf)).toEqual(['us', 'metric', 'metric', 'us']);
});
