import { correction, generate } from 'lean-qr';

export interface QrPicture {
  /** Modules on a side, without the quiet zone. */
  readonly size: number;
  /** An SVG path with one unit to a module, from the top left module. */
  readonly path: string;
}

/**
 * The QR code of a text (ISO/IEC 18004), with a quarter of its words redundant at least, since labels in the field get
 * wet and dirty.
 *
 * @returns runs of dark modules as one path; a quiet zone of 4 modules has to be left round it
 */
export function qrPath(text: string): QrPicture {
  const code = generate(text, { minCorrectionLevel: correction.Q });
  let path = '';
  for (let y = 0; y < code.size; y++) {
    for (let x = 0; x < code.size; x++) {
      if (!code.get(x, y)) continue;
      let end = x;
      while (code.get(end, y)) end += 1;
      path += `M${x} ${y}h${end - x}v1H${x}z`;
      x = end;
    }
  }
  return { size: code.size, path };
}
