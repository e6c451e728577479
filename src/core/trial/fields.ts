import { z } from 'zod';
import { isCalendarDay } from './calendarDay.ts';
import type { FieldFault, FieldForm } from './fieldProblem.ts';

/** A problem of our own inside a schema, told as values: `checkRecord` hands it on unchanged. */
export function fault(path: PropertyKey[], problem: FieldFault) {
  return { code: 'custom' as const, path, params: { fault: problem }, input: undefined };
}

/** Text of a form that has a name. */
export function formField(form: FieldForm, pattern: RegExp) {
  return z.string().check((context) => {
    if (!pattern.test(context.value)) context.issues.push(fault([], { code: 'not-in-this-form', form }));
  });
}

/** A calendar day that exists, `YYYY-MM-DD`. */
export const dayField = z.string().check((context) => {
  if (!isCalendarDay(context.value)) context.issues.push(fault([], { code: 'not-a-day' }));
});

/** A local clock time, `HH:MM`. */
export const clockTimeField = z.string().check((context) => {
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(context.value)) {
    context.issues.push(fault([], { code: 'not-a-clock-time' }));
  }
});

/** Text that says something: 1..200 characters without blanks at its ends. */
export const nameField = z.string().trim().min(1).max(200);

/** Free notes, may be empty. */
export const notesField = z.string().max(5000);

/** A record's id inside its trial. */
export const idField = formField('id', /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/);

/** The name of a plot as it stands on its label: letters, digits, "-" and ".". */
export const plotNameField = formField('plot-name', /^[A-Za-z0-9][A-Za-z0-9.-]{0,11}$/);

/** A treatment is known by its number; letters are kept for groups of means. */
export const treatmentNumberField = z.int().min(1).max(999);
