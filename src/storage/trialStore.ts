import type { AuditEntry } from '../core/trial/audit.ts';
import type { TrialPlan } from '../core/trial/trialPlan.ts';
import type { WeatherDay } from '../core/trial/weather.ts';
import type { PhotoRules, ScoreRecord, TrialRecord } from './records/trialRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, StoreContext } from './storeContext.ts';
import type { RecordOf } from './tables.ts';

/** What a person edits of a trial. */
export interface TrialContent {
  readonly plan: TrialPlan;
  readonly photoRules: PhotoRules;
}

/** An edit: the content after it, and what the audit says of it. */
export interface TrialEdit extends TrialContent {
  readonly entries: readonly AuditEntry[];
}

/** One change as the audit keeps it. */
export type TrialChange = RecordOf<'auditEntries'>;

/** A trial with all that hangs on it. */
export interface StoredTrial {
  readonly trial: TrialRecord;
  readonly scores: readonly ScoreRecord[];
  readonly weather: readonly WeatherDay[];
}

/** Trials, their scores and weather. Every change and its audit entries are one transaction. */
export class TrialStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** All trials, the oldest first. */
  async all(): Promise<readonly TrialRecord[]> {
    const trials = await this.#context.read(['trials'], (tables) => tables.trials.all());
    return trials.sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1));
  }

  /** Null where there is none of this id. */
  open(id: string): Promise<StoredTrial | null> {
    return this.#context.read(['trials', 'scores', 'weather'], async ({ trials, scores, weather }) => {
      const trial = await trials.get(id);
      if (!trial) return null;
      const days = (await weather.get(id))?.days ?? [];
      return { trial, scores: await scores.where('trialId', id), weather: days };
    });
  }

  /** What the audit says of a trial. */
  changes(id: string): Promise<TrialChange[]> {
    return this.#context.read(['auditEntries'], ({ auditEntries }) => auditEntries.where('subjectId', id));
  }

  /** @returns the id of the new trial */
  create({ plan, photoRules }: TrialContent, by: string): Promise<Written<string>> {
    return this.#context.write(
      ['trials', 'auditEntries'],
      async ({ trials, auditEntries }) => {
        const id = this.#context.newId();
        const now = this.#context.now();
        await trials.put({ id, plan, photoRules, createdAt: now, changedAt: now });
        await this.#note(auditEntries, id, { field: null, before: null, after: plan, by, at: now });
        return id;
      },
      (id) => ({ trialIds: [id] }),
    );
  }

  /**
   * Changes a trial as it is stored now, which may have been changed by another tab meanwhile.
   *
   * @param edit called inside the transaction; an edit without entries changes nothing
   * @returns whether anything was changed
   */
  change(id: string, edit: (before: TrialContent) => TrialEdit): Promise<Written<boolean>> {
    return this.#context.write(
      ['trials', 'auditEntries'],
      async ({ trials, auditEntries }) => {
        const before = await trials.get(id);
        if (!before) return false;
        const { plan, photoRules, entries } = edit(before);
        if (entries.length === 0) return false;
        await trials.put({ ...before, plan, photoRules, changedAt: this.#context.now() });
        for (const { field, old, new: after, who, when, why } of entries) {
          await this.#note(auditEntries, id, { field, before: old, after, by: who, at: when, reason: why });
        }
        return true;
      },
      (done) => ({ trialIds: done ? [id] : [] }),
    );
  }

  /** Removes a trial with its scores and weather; photos stay. What it was stays in the audit. */
  remove(id: string, by: string, why: string): Promise<Written<boolean>> {
    return this.#context.write(
      ['trials', 'scores', 'weather', 'skippedPlaces', 'auditEntries'],
      async ({ trials, scores, weather, skippedPlaces, auditEntries }) => {
        const before = await trials.get(id);
        if (!before) return false;
        const scored = await scores.where('trialId', id);
        const at = this.#context.now();
        const skipped = await skippedPlaces.where('trialId', id);
        const whole = {
          ...before,
          scores: scored,
          weather: (await weather.get(id))?.days ?? [],
          ...(skipped.length > 0 && { skipped }),
        };
        await this.#note(auditEntries, id, { field: null, before: whole, after: null, by, at, reason: why });
        for (const score of scored) await scores.delete(scoreKey(score));
        for (const one of skipped) {
          await skippedPlaces.delete([id, one.ratingDate, one.plot, one.place]);
        }
        await weather.delete(id);
        await trials.delete(id);
        return true;
      },
      (done) => ({ trialIds: done ? [id] : [] }),
    );
  }

  /** Keeps a score, or with `value` undefined takes it back; a changed score leaves the old one in the audit. */
  score(
    score: Omit<ScoreRecord, 'changedAt' | 'value'> & { readonly value: number | null | undefined },
    reason: string | null = null,
  ): Promise<Written<boolean>> {
    const { value, ...place } = score;
    return this.#context.write(
      ['trials', 'scores', 'auditEntries'],
      async ({ trials, scores, auditEntries }) => {
        if (!(await trials.get(place.trialId))) return false;
        const before = await scores.get(scoreKey(place));
        if (before?.value === value) return false;
        const at = this.#context.now();
        if (before) {
          const field = `scores[${scoreKey(place).slice(1).join(' ')}]`;
          const after = value === undefined ? null : { value };
          const { value: old } = before;
          const change = { field, before: { value: old }, after, by: place.rater || null, at, reason };
          await this.#note(auditEntries, place.trialId, change);
        }
        if (value === undefined) await scores.delete(scoreKey(place));
        else await scores.put({ ...place, value, changedAt: at });
        return true;
      },
      (done) => ({ trialIds: done ? [place.trialId] : [] }),
    );
  }

  /** Puts a table of weather in the place of what was there. */
  setWeather(
    id: string,
    days: readonly WeatherDay[],
    by: string,
    reason: string | null = null,
  ): Promise<Written<boolean>> {
    return this.#context.write(
      ['trials', 'weather', 'auditEntries'],
      async ({ trials, weather, auditEntries }) => {
        if (!(await trials.get(id))) return false;
        const at = this.#context.now();
        const before = (await weather.get(id))?.days ?? null;
        await this.#note(auditEntries, id, { field: 'weather', before, after: days, by, at, reason });
        await weather.put({ trialId: id, days: days.map((day) => ({ ...day })), changedAt: at });
        return true;
      },
      (done) => ({ trialIds: done ? [id] : [] }),
    );
  }

  async #note(
    entries: CheckedTable<'auditEntries'>,
    trialId: string,
    change: {
      readonly field: string | null;
      readonly before: unknown;
      readonly after: unknown;
      readonly by: string | null;
      readonly at: string;
      readonly reason?: string | null;
    },
  ): Promise<void> {
    const { reason = null, ...rest } = change;
    await entries.put({ id: this.#context.newId(), subject: 'trials', subjectId: trialId, reason, ...rest });
  }
}

type ScorePlace = Pick<ScoreRecord, 'trialId' | 'variable' | 'plot' | 'ratingDate' | 'rater'>;

const scoreKey = ({ trialId, variable, plot, ratingDate, rater }: ScorePlace) => [
  trialId,
  variable,
  plot,
  ratingDate,
  rater,
];
