import { isCalendarDay } from '../trial/calendarDay.ts';
import type { Timing } from '../trial/timing.ts';

const DISTANCE =
  /^(\d{1,4}) ?(days?|d|weeks?|wk?) (before|after) (sowing|application ([A-Za-z0-9][\w.-]*))$/i;
const STAGE = /^(?:growth )?stage (.+?)(?: expected (\d{4}-\d{2}-\d{2}))?$/i;

/**
 * Reads a timing as it stands in a table: "2027-04-12", "12 days before sowing", "3 weeks after application A2",
 * "stage 21", "stage 21 expected 2027-05-01".
 */
export function parseTiming(written: string): Timing | null {
  const text = written.trim().replace(/\s+/g, ' ');
  if (isCalendarDay(text)) return { kind: 'date', date: text };
  if (/^(at|on) sowing$/i.test(text)) {
    return { kind: 'from-sowing', amount: 0, unit: 'days', side: 'after' };
  }
  const distance = DISTANCE.exec(text);
  if (distance) {
    const [, amount, unit, side, , application] = distance;
    const away = {
      amount: Number(amount),
      unit: /^w/i.test(unit!) ? ('weeks' as const) : ('days' as const),
      side: side!.toLowerCase() as 'before' | 'after',
    };
    return application === undefined
      ? { kind: 'from-sowing', ...away }
      : { kind: 'from-application', application, ...away };
  }
  const stage = STAGE.exec(text);
  if (!stage || (stage[2] !== undefined && !isCalendarDay(stage[2]))) return null;
  return { kind: 'growth-stage', stage: stage[1]!, expectedDate: stage[2] ?? null };
}

/** The timing in the words `parseTiming` reads. */
export function writeTiming(timing: Timing): string {
  switch (timing.kind) {
    case 'date':
      return timing.date;
    case 'from-sowing':
      return `${timing.amount} ${timing.unit} ${timing.side} sowing`;
    case 'from-application':
      return `${timing.amount} ${timing.unit} ${timing.side} application ${timing.application}`;
    case 'growth-stage':
      return `stage ${timing.stage}${timing.expectedDate === null ? '' : ` expected ${timing.expectedDate}`}`;
  }
}
