import type { ReactNode } from 'react';

/** The room a drawing gets. */
export interface DrawingSize {
  readonly widthPx: number;
  /** Null: as high as it needs. */
  readonly heightPx: number | null;
  /** Size of ordinary text. */
  readonly textPx: number;
}

/** A value of the picture that keys and pointer can stop at. */
export interface Mark {
  readonly x: number;
  readonly y: number;
  /** Up and down go from series to series. */
  readonly series: number;
  /** Left and right go from step to step. */
  readonly step: number;
  /** The value in words. */
  readonly says: string;
}

/** A picture, drawn for one size. */
export interface Drawing {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly marks: readonly Mark[];
  readonly content: ReactNode;
}

/** The same data as a table: cells are words already. */
export interface FigureTable {
  readonly columns: readonly { readonly head: string; readonly numeric: boolean }[];
  /** The first cell of a row is its heading. */
  readonly rows: readonly (readonly string[])[];
}

/** A picture with its words, ready for the screen, a report or a file. */
export interface FigureContent {
  readonly title: string;
  /** What is drawn and how, n and intervals included; one sentence an entry. */
  readonly caption: readonly string[];
  /** Said on every saved picture. */
  readonly caution: readonly string[];
  readonly table: FigureTable;
  readonly draw: (size: DrawingSize) => Drawing;
}
