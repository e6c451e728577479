/** Why a file gives no picture to measure. The catalogue in core/text turns each into a sentence with a way out. */
export type PhotoProblem =
  | { readonly code: 'empty-file' }
  | { readonly code: 'not-a-picture' }
  | { readonly code: 'truncated' }
  | { readonly code: 'damaged'; readonly detail: string }
  | {
      readonly code: 'too-large';
      readonly widthPx: number;
      readonly heightPx: number;
      readonly limitMegapixels: number;
    }
  | {
      readonly code: 'too-small';
      readonly widthPx: number;
      readonly heightPx: number;
      readonly leastSidePx: number;
    }
  | { readonly code: 'heic-not-decodable' }
  | { readonly code: 'cmyk' }
  | { readonly code: 'greyscale' }
  | { readonly code: 'unsupported-kind'; readonly kind: string };
