import { expect, test } from 'vitest';
import { writeCalendarFile } from '../../../src/core/exchange/calendarFile.ts';
import { writeTrialCalendarFile } from '../../../src/core/exchange/calendarFileTrial.ts';
import { appliedProduct, doneOn, plannedApplication, samplePlan } from '../trial/samplePlan.ts';

const NOW = '2027-02-20T08:15:00Z';

const event = {
  uid: 'rating-R1.K7QF3M@swardbook.invalid',
  firstDay: '2027-04-12',
  lastDay: '2027-04-12',
  summary: 'Rating R1',
  description: '',
  category: 'Rating',
};

/** Lines put together again as RFC 5545, 3.1 says: a line that begins with a blank goes on with the one before. */
const unfolded = (text: string) => text.replaceAll('\r\n ', '').split('\r\n');

test('an all-day entry, line for line', () => {
  // Line order and form by RFC 5545, 3.6 and 3.6.1; the end of a DATE entry is the day after (3.8.2.2).
  expect(writeCalendarFile({ name: 'Trial', events: [event], writtenAt: NOW })).toBe(
    [
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//Swardbook//Trial calendar 1//EN',
      'CALSCALE:GREGORIAN',
      'METHOD:PUBLISH',
      'X-WR-CALNAME:Trial',
      'BEGIN:VEVENT',
      'UID:rating-R1.K7QF3M@swardbook.invalid',
      'DTSTAMP:20270220T081500Z',
      'DTSTART;VALUE=DATE:20270412',
      'DTEND;VALUE=DATE:20270413',
      'SUMMARY:Rating R1',
      'DESCRIPTION:',
      'CATEGORIES:Rating',
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
      'END:VCALENDAR',
      '',
    ].join('\r\n'),
  );
});

test('texts are escaped, lines folded at 75 octets and no character is cut', () => {
  const summary = `Plots 1; 2, and C:\\3\n${'é°粒🌱'.repeat(40)}`;
  const text = writeCalendarFile({
    name: 'Trial',
    events: [{ ...event, summary: `${summary}\u0007` }],
    writtenAt: NOW,
  });
  const octets = text.split('\r\n').map((line) => new TextEncoder().encode(line).length);
  expect(Math.max(...octets)).toBeLessThanOrEqual(75);
  expect(Math.max(...octets)).toBeGreaterThan(70);
  expect(text).not.toContain('\uFFFD');
  const line = unfolded(text).find((one) => one.startsWith('SUMMARY:'))!;
  expect(line).toContain('Plots 1\\; 2\\, and C:\\\\3\\né°粒🌱');
  const read = line
    .slice('SUMMARY:'.length)
    .replace(/\\([\\;,n])/g, (_, sign: string) => (sign === 'n' ? '\n' : sign));
  expect(read).toBe(summary);
});

test('every line break is CR LF', () => {
  const text = writeCalendarFile({
    name: 'a\rb',
    events: [{ ...event, description: 'one\r\ntwo\nthree' }],
    writtenAt: NOW,
  });
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  expect(text).toContain('DESCRIPTION:one\\ntwo\\nthree\r\n');
});

test('only UTC says when it was written', () => {
  expect(() => writeCalendarFile({ name: '', events: [], writtenAt: '2027-02-20 08:15' })).toThrow(
    'is UTC, ISO 8601',
  );
});

test('the trial’s calendar: what has a day, with caution on applications, the same names every time', () => {
  const plan = samplePlan();
  plan.applications = [
    plannedApplication({
      id: 'A1',
      treatments: [2, 4],
      products: [appliedProduct()],
      windowDays: { before: 2, after: 3 },
    }),
    plannedApplication({ id: 'A2', progress: { state: 'left-out', why: 'rain' } }),
    plannedApplication({ id: 'A3', timing: { kind: 'growth-stage', stage: '21', expectedDate: null } }),
    plannedApplication({ id: 'A4', progress: doneOn('2027-02-10') }),
  ];
  const lines = unfolded(writeTrialCalendarFile(plan, NOW));
  const of = (name: string) =>
    lines.filter((line) => line.startsWith(name)).map((line) => line.slice(name.length));
  expect(of('DTSTART;VALUE=DATE:')).toEqual([
    '20270210',
    '20270224',
    '20270412',
    '20270517',
    '20270621',
    '20270726',
  ]);
  expect(of('UID:')).toEqual(
    ['application-A4', 'application-A1', 'rating-R1', 'rating-R2', 'rating-R3', 'rating-R4'].map(
      (id) => `${id}.K7QF3M@swardbook.invalid`,
    ),
  );
  const [done, planned, rating] = of('DESCRIPTION:');
  expect(done).toContain('Done on 10 February 2027.');
  expect(planned).toContain('From 22 February 2027 to 27 February 2027.');
  expect(planned).toContain('experimental');
  expect(planned).toContain('The product label and local regulations decide.');
  expect(rating).toBe('');
  plan.trial.sowing.date = '2027-03-15';
  plan.applications[0]!.timing = { kind: 'from-sowing', amount: 12, unit: 'days', side: 'before' };
  const moved = unfolded(writeTrialCalendarFile(plan, '2027-03-01T00:00:00Z'));
  expect(moved.filter((line) => line.startsWith('UID:')).sort()).toEqual(
    lines.filter((line) => line.startsWith('UID:')).sort(),
  );
});
