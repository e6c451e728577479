/**
 * Units of the trial record, as entered, with their value in the international system beside them.
 *
 * Every factor is a product of exact definitions: inch 25.4 mm, pound 453.59237 g, US gallon 231 cubic inches, imperial
 * gallon 4.54609 L (NIST Handbook 44 Appendix C; NIST SP 811 Appendix B). Acre: the international acre, 43,560 ft2.
 * Gallon, quart, pint and fluid ounce are the US measures unless the unit says "imp".
 */
export type UnitKind =
  | 'mass-per-area'
  | 'volume-per-area'
  | 'volume-share'
  | 'mass-per-volume'
  | 'mass-share'
  | 'pressure'
  | 'speed'
  | 'length';

/** The unit that values of a kind are told in beside what was entered. */
export const SI_UNIT = {
  'mass-per-area': 'kg/ha',
  'volume-per-area': 'L/ha',
  'volume-share': 'mL/L',
  'mass-per-volume': 'g/L',
  'mass-share': 'g/kg',
  pressure: 'kPa',
  speed: 'km/h',
  length: 'mm',
} as const satisfies Record<UnitKind, string>;

export interface Unit {
  readonly kind: UnitKind;
  /** Multiply an amount in this unit by it to get the amount in `SI_UNIT[kind]`. */
  readonly factor: number;
}

export type UnitReading =
  | { readonly ok: true; readonly unit: Unit }
  | { readonly ok: false; readonly code: 'unit-unknown' }
  /** "oz" is a weight or a volume: which one only the user knows. The choices are whole units to pick from. */
  | { readonly ok: false; readonly code: 'ounce-unclear'; readonly choices: readonly [string, string] };

const INCH_M = 0.0254;
const FOOT2_M2 = (12 * INCH_M) ** 2;
const POUND_KG = 0.45359237;
const GALLON_L = 231 * (INCH_M * 10) ** 3;
const IMPERIAL_GALLON_L = 4.54609;
const STANDARD_GRAVITY = 9.80665;
const HECTARE_M2 = 10_000;

const KILOGRAMS: Readonly<Record<string, number>> = {
  mg: 1e-6,
  g: 1e-3,
  kg: 1,
  lb: POUND_KG,
  'oz wt': POUND_KG / 16,
};

const LITRES: Readonly<Record<string, number>> = {
  ml: 1e-3,
  l: 1,
  'fl oz': GALLON_L / 128,
  pt: GALLON_L / 8,
  qt: GALLON_L / 4,
  gal: GALLON_L,
  'imp fl oz': IMPERIAL_GALLON_L / 160,
  'imp gal': IMPERIAL_GALLON_L,
};

const SQUARE_METRES: Readonly<Record<string, number>> = {
  m2: 1,
  '100 m2': 100,
  '1000 m2': 1000,
  ha: HECTARE_M2,
  ft2: FOOT2_M2,
  '1000 ft2': 1000 * FOOT2_M2,
  acre: 43_560 * FOOT2_M2,
};

const WHOLE_UNITS: Readonly<Record<string, Unit>> = {
  gpa: { kind: 'volume-per-area', factor: GALLON_L / ((43_560 * FOOT2_M2) / HECTARE_M2) },
  '% v/v': { kind: 'volume-share', factor: 10 },
  '% w/w': { kind: 'mass-share', factor: 10 },
  kpa: { kind: 'pressure', factor: 1 },
  bar: { kind: 'pressure', factor: 100 },
  psi: { kind: 'pressure', factor: (POUND_KG * STANDARD_GRAVITY) / INCH_M ** 2 / 1000 },
  'km/h': { kind: 'speed', factor: 1 },
  'm/s': { kind: 'speed', factor: 3.6 },
  mm: { kind: 'length', factor: 1 },
  cm: { kind: 'length', factor: 10 },
  m: { kind: 'length', factor: 1000 },
  in: { kind: 'length', factor: INCH_M * 1000 },
  ft: { kind: 'length', factor: INCH_M * 12_000 },
  mph: { kind: 'speed', factor: (INCH_M * 12 * 5280) / 1000 },
};

/** What is written in many ways, and the one way it is looked up by. */
const SPELLINGS: readonly [RegExp, string][] = [
  [/[\u00a0\u2009]/g, ' '],
  [/²|\^2/g, '2'],
  [/\bper\b/g, '/'],
  [/\bsquare (feet|foot)\b|\bsq\.? ?ft\b\.?/g, 'ft2'],
  [/\b(feet|foot)\b/g, 'ft'],
  [/\binch(es)?\b/g, 'in'],
  [/\bsquare met(re|er)s?\b|\bsq\.? ?m\b\.?/g, 'm2'],
  [/(\d)[, ](?=000\b)/g, '$1'],
  [/(\d)\s*(?=(ft2|m2)\b)/g, '$1 '],
  [/\bfl(uid)?\.? ?(oz\b\.?|ounces?\b)/g, 'fl oz'],
  [
    /\boz\b\.? ?\((weight|wt\.?)\)|\b(weight|dry) (oz\b\.?|ounces?\b)|\b(oz\b\.?|ounces?) (weight|wt\b\.?|av\b\.?)/g,
    'oz wt',
  ],
  [/\bounces?\b/g, 'oz'],
  [/\boz\./g, 'oz'],
  [/\blbs?\b\.?|\bpounds?\b/g, 'lb'],
  [/\bacres?\b|\bac?\b\.?(?=$)/g, 'acre'],
  [/\bhectares?\b/g, 'ha'],
  [/\blit(re|er)s?\b/g, 'l'],
  [/\bgallons?\b|\bgal\b\./g, 'gal'],
  [/\bpints?\b/g, 'pt'],
  [/\bquarts?\b/g, 'qt'],
  [/\bimp(erial)?\b\.?/g, 'imp'],
  [/\bus (?=gal|qt|pt|fl)/g, ''],
  [/%\s*\(?v\/v\)?/g, '% v/v'],
  [/%\s*\(?w\/w\)?/g, '% w/w'],
  [/\s*\/\s*/g, '/'],
  [/\s+/g, ' '],
];

function normalSpelling(written: string): string {
  let text = written.toLowerCase();
  for (const [pattern, spelling] of SPELLINGS) text = text.replace(pattern, spelling);
  return text.trim();
}

/** The units of a kind that can be entered, in one spelling each, for a list to choose from. */
export function unitsOfKind(kind: UnitKind): string[] {
  const over = (tops: Readonly<Record<string, number>>, bottoms: readonly string[]) =>
    Object.keys(tops).flatMap((top) => bottoms.map((bottom) => shown(`${top}/${bottom}`)));
  const areas = Object.keys(SQUARE_METRES);
  const whole = Object.entries(WHOLE_UNITS).filter(([, unit]) => unit.kind === kind);
  const names = whole.map(([name]) => shown(name));
  if (kind === 'mass-per-area') return over(KILOGRAMS, areas);
  if (kind === 'volume-per-area') return [...over(LITRES, areas), ...names];
  if (kind === 'volume-share') return [...over({ ml: 1 }, ['l']), ...over({ 'fl oz': 1 }, ['gal']), ...names];
  if (kind === 'mass-per-volume') return over(KILOGRAMS, ['l', 'gal']);
  if (kind === 'mass-share') return [...over({ g: 1 }, ['kg']), ...names];
  return names;
}

const shown = (name: string) =>
  name
    .replace(/\bml\b/g, 'mL')
    .replace(/\bl\b/g, 'L')
    .replace(/\bkpa\b/, 'kPa')
    .replace('oz wt', 'oz (weight)');

/**
 * Reads a unit as people write it: "kg/ha", "fl oz per 1,000 sq ft", "oz (weight)/acre", "% v/v", "gpa", "psi".
 *
 * Plain "oz" is asked about: a weight ounce and a fluid ounce differ in kind.
 */
export function readUnit(written: string): UnitReading {
  const text = normalSpelling(written);
  const whole = own(WHOLE_UNITS, text);
  if (whole) return { ok: true, unit: whole };
  const parts = text.split('/');
  const [top, bottom] = parts;
  if (parts.length !== 2 || !top || !bottom) return { ok: false, code: 'unit-unknown' };
  if (top === 'oz' && (own(SQUARE_METRES, bottom) || own(LITRES, bottom))) {
    return {
      ok: false,
      code: 'ounce-unclear',
      choices: [shown(`oz wt/${bottom}`), shown(`fl oz/${bottom}`)],
    };
  }
  const unit = quotient(top, bottom);
  return unit ? { ok: true, unit } : { ok: false, code: 'unit-unknown' };
}

/** The entry under a name; nothing for names that every object has, such as "constructor". */
function own<Value>(table: Readonly<Record<string, Value>>, name: string): Value | undefined {
  return Object.hasOwn(table, name) ? table[name] : undefined;
}

function quotient(top: string, bottom: string): Unit | null {
  const area = own(SQUARE_METRES, bottom);
  const [mass, volume] = [own(KILOGRAMS, top), own(LITRES, top)];
  if (area && mass) return { kind: 'mass-per-area', factor: mass / (area / HECTARE_M2) };
  if (area && volume) return { kind: 'volume-per-area', factor: volume / (area / HECTARE_M2) };
  const [belowVolume, belowMass] = [own(LITRES, bottom), own(KILOGRAMS, bottom)];
  if (volume && belowVolume) return { kind: 'volume-share', factor: (1000 * volume) / belowVolume };
  if (mass && belowVolume) return { kind: 'mass-per-volume', factor: (1000 * mass) / belowVolume };
  if (mass && belowMass) return { kind: 'mass-share', factor: (1000 * mass) / belowMass };
  return null;
}
