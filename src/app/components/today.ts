import type { CalendarDay } from '../../core/trial/calendarDay.ts';

/** The day on this device's calendar. */
export function today(now = new Date()): CalendarDay {
  const pad = (value: number, digits: number) => String(value).padStart(digits, '0');
  return `${pad(now.getFullYear(), 4)}-${pad(now.getMonth() + 1, 2)}-${pad(now.getDate(), 2)}` as CalendarDay;
}
