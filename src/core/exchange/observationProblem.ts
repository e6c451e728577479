/** Something in the table that cannot be. Rows count from 1, the row of column names. */
export type ObservationProblem =
  | { readonly code: 'empty-table' }
  | { readonly code: 'no-rows' }
  | { readonly code: 'missing-column'; readonly column: string; readonly found: readonly string[] }
  | { readonly code: 'column-twice'; readonly column: string }
  | { readonly code: 'broken-quotes'; readonly row: number }
  | { readonly code: 'empty-cell'; readonly row: number; readonly column: string }
  | { readonly code: 'not-a-number'; readonly row: number; readonly column: string; readonly met: string }
  | {
      readonly code: 'out-of-scale';
      readonly row: number;
      readonly column: string;
      readonly met: string;
      readonly least: number;
      readonly most: number;
    }
  | { readonly code: 'not-a-day'; readonly row: number; readonly column: string; readonly met: string }
  | {
      readonly code: 'plot-differs';
      readonly row: number;
      readonly column: string;
      readonly plot: string;
      readonly met: string;
      readonly before: string;
      readonly beforeRow: number | null;
    }
  | {
      readonly code: 'row-twice';
      readonly row: number;
      readonly beforeRow: number;
      readonly plot: string;
      readonly what: string;
    }
  | {
      readonly code: 'unknown-class';
      readonly row: number | null;
      readonly met: string;
      readonly known: readonly string[];
    }
  | { readonly code: 'unknown-plot'; readonly row: number; readonly met: string }
  | { readonly code: 'block-missing'; readonly plot: string }
  | { readonly code: 'several-methods'; readonly methods: readonly string[] }
  | { readonly code: 'unknown-method'; readonly met: string; readonly known: readonly string[] };
