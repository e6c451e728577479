/**
 * The channels of "#rrggbb", 0..255.
 *
 * @throws RangeError for anything else
 */
export function parseColour(colour: string): readonly [red: number, green: number, blue: number] {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new RangeError(`a colour is written #rrggbb, got "${colour}"`);
  const value = Number.parseInt(colour.slice(1), 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
}

/** Relative luminance of an sRGB colour, 0..1. @see WCAG 2.2, "relative luminance" */
export function relativeLuminance(colour: string): number {
  const [red, green, blue] = parseColour(colour).map((channel) => {
    const share = channel / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

/** Contrast of two colours, 1..21. @see WCAG 2.2, "contrast ratio" */
export function contrastRatio(a: string, b: string): number {
  const [light, dark] = [relativeLuminance(a), relativeLuminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

/** Black or white, whichever reads better on a colour. */
export function inkOn(colour: string): '#000000' | '#ffffff' {
  return contrastRatio(colour, '#000000') >= contrastRatio(colour, '#ffffff') ? '#000000' : '#ffffff';
}
