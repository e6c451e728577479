import { app } from '../../core/text/app.ts';
import type { PhotoSummary } from '../session/session.ts';

/** "Plot 101", or that it is not known. */
export const plotWords = (plot: string | null) => (plot === null ? app.photos.noPlot : app.photos.plot(plot));

/** "12 April 2027", or that it is not known. */
export const dateWords = (day: string | null, style: 'long' | 'short' = 'long') =>
  day === null ? app.photos.noDate : style === 'long' ? app.day(day) : app.shortDay(day);

/** What is going on with a photo, or null when its figure stands. */
export function workWords({ work, stale, figure }: PhotoSummary): string | null {
  if (work) return app.photos.work[work];
  if (stale) return app.photos.stale;
  return figure ? null : app.photos.notMeasured;
}
