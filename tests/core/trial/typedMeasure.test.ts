import { expect, test } from 'vitest';
import { typedCelsius, typedMillimetres } from '../../../src/core/trial/typedMeasure.ts';

// inch 25.4 mm, foot 304.8 mm, exact: NIST SP 811, Appendix B
test.each([
  ['18 in', 457.2],
  ['0.5in', 12.7],
  ['5 ft', 1524],
  ['0,3 ft', 91.44],
  ['1.5 m', 1500],
  ['20 inches', 508],
  ['12 mm', 12],
])('%s is %d mm', (typed, millimetres) => expect(typedMillimetres(typed)).toBe(millimetres));

test.each(['18', '', 'in', '5 kg', '5 ft 6', '1e3', '12 constructor'])(
  '"%s" is no length with its unit',
  (typed) => expect(typedMillimetres(typed)).toBeNull(),
);

// fixed points of the Fahrenheit scale: NIST SP 811, B.8
test.each([
  ['32 F', 0],
  ['212 °F', 100],
  ['-40 f', -40],
  ['50°F', 10],
])('%s is %d °C', (typed, celsius) => expect(typedCelsius(typed)).toBe(celsius));

test.each(['50', '50 C', 'F'])('"%s" is no temperature in Fahrenheit', (typed) =>
  expect(typedCelsius(typed)).toBeNull(),
);
