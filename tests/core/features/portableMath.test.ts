import { expect, it } from 'vitest';
import { LAB_UNIT, LOG_LIGHTNESS, RELATIVE_UNIT } from '../../../src/core/features/logLightness.ts';
import { portableExp, portableLog } from '../../../src/core/features/portableMath.ts';

it('follows the exponential to 14 digits', () => {
  for (let power = 0; power > -700; power -= 0.37) {
    expect(Math.abs(portableExp(power) / Math.exp(power) - 1)).toBeLessThan(1e-13);
  }
  expect(portableExp(0)).toBe(1);
  expect(portableExp(-800)).toBe(0);
  expect(portableExp(Number.NEGATIVE_INFINITY)).toBe(0);
  expect(() => portableExp(0.1)).toThrow('power must be 0 or less, got 0.1');
});

it('follows the logarithm to 14 digits', () => {
  for (const value of [1e-300, 1e-9, 0.3, 0.75, 0.99999, 1.00001, 1.5, 2, 17, 1e12, 1e300]) {
    expect(Math.abs(portableLog(value) - Math.log(value))).toBeLessThan(
      1e-14 * Math.max(1, Math.abs(Math.log(value))),
    );
  }
  expect(portableLog(1)).toBe(0);
  expect(() => portableLog(0)).toThrow('value must be above 0 and finite, got 0');
});

it('tabulates log lightness', () => {
  for (const lightness of [0, 20.5, 50, 100]) {
    expect(LOG_LIGHTNESS[lightness * LAB_UNIT]).toBe(Math.round(Math.log(lightness + 16) * RELATIVE_UNIT));
  }
});
