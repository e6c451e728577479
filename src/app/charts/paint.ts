/**
 * Colours of charts as presentation attributes. Each is a property of the page with the colour for white paper behind it: the
 * style sheet of the page sets the property on screen (light, dark, sun), a saved picture and a printed report, where nobody sets it,
 * show the colour for paper.
 */
export const paint = {
  ink: 'var(--chart-ink, #16191a)',
  soft: 'var(--chart-soft, #51585a)',
  line: 'var(--chart-line, #d3d7d3)',
  strong: 'var(--chart-strong, #7d8583)',
  sheet: 'var(--chart-sheet, #ffffff)',
  sunken: 'var(--chart-sunken, #e6e8e5)',
  rain: 'var(--chart-rain, #5b87ad)',
} as const;

/**
 * Colours of treatments in turn. The first is ink, since treatment 1 is mostly the untreated control. The others came out of a search
 * for the palette whose two likest colours differ most, over normal, deuteranope and protanope eyes together, each with contrast 3
 * to its ground; tests/app/charts/paint.test.ts computes both again, here and in the dark.
 */
export const SERIES_COLOURS = ['#16191a', '#0080d8', '#d06a08', '#109a6b', '#6c0a74', '#683600'] as const;

export const seriesPaint = (index: number): string =>
  `var(--chart-series-${index % SERIES_COLOURS.length}, ${SERIES_COLOURS[index % SERIES_COLOURS.length]})`;

/** Markup with every property replaced by its colour for white paper. */
export function onPaper(markup: string): string {
  return markup.replace(/var\(--[\w-]+,\s*([^()]+)\)/g, '$1');
}
