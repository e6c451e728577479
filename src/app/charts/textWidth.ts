/** Widths of letters in thousandths of the text size, for a sans serif of ordinary width (Arial's metrics, from memory). */
const NARROW = /[iljI.,:;'|! ]/;
const SMALL = /[ftr()[\]/\\\-"]/;
const WIDE = /[mwMW%@—…−]/;
const CAPITAL = /[A-Z&+=<>±×~]/;

/** System fonts are up to some 15 % wider than those metrics; most are within this. */
const ROOM = 1.12;

/**
 * How much room a text takes, on the generous side: pages, reports and files have to come out alike without measuring in a browser.
 */
export function textWidth(text: string, sizePx: number, strong = false): number {
  let width = 0;
  for (const letter of text) {
    if (NARROW.test(letter)) width += 0.278;
    else if (SMALL.test(letter)) width += 0.333;
    else if (WIDE.test(letter)) width += 0.86;
    else if (CAPITAL.test(letter)) width += 0.67;
    else width += 0.556;
  }
  return width * sizePx * ROOM * (strong ? 1.06 : 1);
}

/**
 * A text in lines no wider than given; a single word that is wider stands alone.
 *
 * @param most lines; what is left over ends in "…" @default no limit
 */
export function wrapText(
  text: string,
  widthPx: number,
  sizePx: number,
  most = Number.POSITIVE_INFINITY,
  strong = false,
): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line ? `${line} ${word}` : word;
    if (line === '' || textWidth(longer, sizePx, strong) <= widthPx) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line) lines.push(line);
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  kept[most - 1] = shortened(kept[most - 1]!, widthPx, sizePx);
  return kept;
}

function shortened(line: string, widthPx: number, sizePx: number): string {
  let cut = line;
  while (cut.length > 1 && textWidth(`${cut}…`, sizePx) > widthPx) cut = cut.slice(0, -1);
  return `${cut.trimEnd()}…`;
}
