import { describe, expect, it } from 'vitest';
import { labFromXyz, labResponse, type Triple, xyzFromLinear } from '../../../src/core/colour/cielab.ts';
import {
  chromaticCoordinates,
  colourIndexOfVegetation,
  darkGreenColourIndex,
  excessGreen,
  excessRed,
} from '../../../src/core/colour/greenness.ts';
import { hsvFromSrgb } from '../../../src/core/colour/hsv.ts';
import { LAB_RESPONSE, RESPONSE_ONE } from '../../../src/core/colour/labResponseTable.ts';
import {
  LINEAR_FROM_BYTE,
  LINEAR_ONE,
  linearFromSrgb,
  srgbFromLinear,
} from '../../../src/core/colour/srgb.ts';
import { referenceValues } from '../../support/referenceValues.ts';

interface ReferenceColour {
  readonly name: string;
  readonly rgb: Triple;
  readonly linear: Triple;
  readonly xyz_d65: Triple;
  readonly lab_d65: Triple;
  readonly hsv: { readonly h_degrees: number; readonly s: number; readonly v: number };
  readonly exg: number | null;
  readonly 'exr_1.4': number | null;
  readonly cive_on_0_255: number;
  readonly dgci_hsb: number | null;
}

// Computed in R from IEC 61966-2-1, CIE 15 and the papers named in the file
const { transfer, colours } = referenceValues<{
  transfer: { encoded: number; linear: number }[];
  colours: ReferenceColour[];
}>('colour.json');
const dgci = referenceValues<{ rows: { h_degrees: number; s: number; b: number; dgci: number }[] }>(
  'dgci.json',
);

const each = (values: Triple, f: (value: number) => number): Triple => values.map(f) as unknown as Triple;

describe('sRGB transfer', () => {
  it.each(transfer)('links $encoded and $linear', ({ encoded, linear }) => {
    expect(linearFromSrgb(encoded)).toBeCloseTo(linear, 6);
    expect(srgbFromLinear(linear)).toBeCloseTo(encoded, 6);
  });
});

describe.each(colours)('$name', (colour) => {
  const encoded = each(colour.rgb, (byte) => byte / 255);
  const linear = each(encoded, linearFromSrgb);

  it('has its linear light, XYZ and CIELAB', () => {
    const xyz = xyzFromLinear(linear);
    const lab = labFromXyz(xyz);
    for (let i = 0; i < 3; i += 1) {
      expect(linear[i]).toBeCloseTo(colour.linear[i]!, 6);
      expect(xyz[i]).toBeCloseTo(colour.xyz_d65[i]!, 6);
      expect(lab[i]).toBeCloseTo(colour.lab_d65[i]!, 1);
      expect(Math.abs(lab[i]! - colour.lab_d65[i]!)).toBeLessThan(0.01);
    }
  });

  it('has its hue, saturation and value', () => {
    const { hueDegrees, saturation, value } = hsvFromSrgb(encoded);
    expect(saturation).toBeCloseTo(colour.hsv.s, 6);
    expect(value).toBeCloseTo(colour.hsv.v, 6);
    // the reference writes 0 for the hue of a grey; here a grey has none
    if (colour.hsv.s === 0) expect(hueDegrees).toBeNull();
    else expect(hueDegrees).toBeCloseTo(colour.hsv.h_degrees, 6);
    if (hueDegrees !== null && colour.dgci_hsb !== null) {
      expect(darkGreenColourIndex(hueDegrees, saturation, value)).toBeCloseTo(colour.dgci_hsb, 6);
    }
  });

  it('has its greenness', () => {
    const chromatic = chromaticCoordinates(encoded);
    if (colour.exg === null) expect(chromatic).toBeNull();
    else {
      expect(excessGreen(chromatic!)).toBeCloseTo(colour.exg, 6);
      expect(excessRed(chromatic!)).toBeCloseTo(colour['exr_1.4']!, 6);
    }
    expect(colourIndexOfVegetation(colour.rgb)).toBeCloseTo(colour.cive_on_0_255, 6);
  });
});

describe('dark green colour index', () => {
  it.each(dgci.rows)('is $dgci at hue $h_degrees', ({ h_degrees, s, b, dgci: expected }) => {
    expect(darkGreenColourIndex(h_degrees, s, b)).toBeCloseTo(expected, 9);
  });
});

describe('whole-number tables', () => {
  // Engines agree on the last bit of + - * / but not of powers and roots; an entry this far from a rounding boundary
  // comes out the same everywhere.
  const safe = 1e-7;

  it('lie clear of rounding boundaries', () => {
    for (let byte = 0; byte < 256; byte += 1) {
      const exact = linearFromSrgb(byte / 255) * LINEAR_ONE;
      expect(Math.abs(exact - LINEAR_FROM_BYTE[byte]!)).toBeLessThan(0.5 - safe);
    }
    for (let step = 0; step < LAB_RESPONSE.length; step += 1) {
      const exact = labResponse(step / LINEAR_ONE) * RESPONSE_ONE;
      if (Math.abs(exact - LAB_RESPONSE[step]!) >= 0.5 - safe) throw new Error(`entry ${step} is ${exact}`);
    }
  });

  it('put white at one', () => {
    expect(LINEAR_FROM_BYTE[255]).toBe(LINEAR_ONE);
    expect(LAB_RESPONSE[LINEAR_ONE]).toBe(RESPONSE_ONE);
  });
});
