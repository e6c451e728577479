import type { AdjustedCover } from '../cover/adjustedCover.ts';
import type { Note } from '../statistics/note.ts';
import { finiteJson } from './finiteJson.ts';

export const ADJUSTED_COVER_VERSION = 1;

/**
 * Adjusted cover as JSON (`adjusted-cover`, version 1).
 *
 * @param textOf the sentence of a note; codes stand beside the sentences for programs
 */
export function writeAdjustedCover(adjusted: AdjustedCover, textOf: (note: Note) => string): string {
  const { notes, ...values } = adjusted;
  return finiteJson({
    type: 'adjusted-cover',
    version: ADJUSTED_COVER_VERSION,
    ...values,
    notes: notes.map(textOf),
    noteCodes: notes.map(({ code }) => code),
  });
}
