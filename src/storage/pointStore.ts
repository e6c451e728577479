import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import type { PointSet } from '../core/point-grid/pointSet.ts';
import type { NewFigure } from './figureStore.ts';
import { putFigure } from './figureStore.ts';
import { settledMeasuring } from './measureSettingsOf.ts';
import type {
  CountPlanRecord,
  FieldCountRecord,
  ObserverTestRecord,
  PointCallRecord,
  PointSetRecord,
} from './records/pointRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, StoreContext } from './storeContext.ts';
import type { TableName } from './tables.ts';

/** Everything that was counted at points. */
export interface StoredPoints {
  /** The oldest first; so are all lists here. */
  readonly plans: readonly CountPlanRecord[];
  readonly sets: readonly PointSetRecord[];
  readonly calls: readonly PointCallRecord[];
  readonly fieldCounts: readonly FieldCountRecord[];
  readonly tests: readonly ObserverTestRecord[];
}

/** What decides whether reference points may be called on a photo, and where. */
export interface PhotoForPoints {
  readonly settings: MeasureSettings;
  readonly hasStrokes: boolean;
  /** Whether somebody has looked at it in the review, now or earlier. */
  readonly isReviewed: boolean;
}

/** A figure that was made of points. */
export interface FigureOfPhoto {
  readonly photoId: string;
  readonly figure: NewFigure;
}

const POINT_TABLES = ['countPlans', 'pointSets', 'calls', 'fieldCounts', 'observerTests'] as const;
const changed = () => ({ points: true });

/** Counts at points: plans, points, calls, counts on the turf, observer tests. Every gesture is one transaction. */
export class PointStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Everything. Cost grows with the number of calls. */
  load(): Promise<StoredPoints> {
    return this.#context.read(POINT_TABLES, async (tables) => ({
      plans: (await tables.countPlans.all()).sort(by(({ createdAt }) => createdAt)),
      sets: (await tables.pointSets.all()).sort(by(({ createdAt }) => createdAt)),
      calls: (await tables.calls.all()).sort(by(({ calledAt, id }) => `${calledAt} ${id}`)),
      fieldCounts: (await tables.fieldCounts.all()).sort(by(({ enteredAt }) => enteredAt)),
      tests: (await tables.observerTests.all()).sort(by(({ finishedAt }) => finishedAt)),
    }));
  }

  /** By photo; those that are not there are left out. */
  photos(ids: readonly string[]): Promise<ReadonlyMap<string, PhotoForPoints>> {
    const names = ['photos', 'photoSettings', 'models', 'trials', 'strokes', 'reviews'] as const;
    return this.#context.read(names, async (tables) => {
      const found = new Map<string, PhotoForPoints>();
      for (const id of ids) {
        const photo = await tables.photos.get(id);
        if (!photo) continue;
        found.set(id, {
          settings: (await settledMeasuring(photo, tables)).settings,
          hasStrokes: (await tables.strokes.first('photoId', id)) !== undefined,
          isReviewed: (await tables.reviews.get(id)) !== undefined,
        });
      }
      return found;
    });
  }

  /**
   * Keeps a plan with the points of its photos. Photos that were removed meanwhile, or have points already, are
   * left out.
   *
   * @returns how many photos have points now that had none
   */
  addPlan(
    plan: CountPlanRecord,
    sets: readonly Omit<PointSetRecord, 'planId' | 'createdAt' | 'by'>[],
  ): Promise<Written<number>> {
    return this.#context.write(
      ['photos', 'countPlans', 'pointSets', 'auditEntries'],
      async ({ photos, countPlans, pointSets, auditEntries }) => {
        let kept = 0;
        for (const set of sets) {
          if (!(await photos.get(set.photoId)) || (await pointSets.first('photoId', set.photoId))) continue;
          await pointSets.put({ ...set, planId: plan.id, createdAt: plan.createdAt, by: plan.by });
          kept += 1;
        }
        if (kept === 0) return 0;
        await countPlans.put(plan);
        await this.#note(auditEntries, 'countPlans', plan.id, null, { ...plan, photos: kept }, plan.by);
        return kept;
      },
      changed,
    );
  }

  /** Takes a plan back as long as nobody has called a point of it. @returns whether it was taken back */
  removePlan(id: string, by: string | null): Promise<Written<boolean>> {
    return this.#context.write(
      ['countPlans', 'pointSets', 'calls', 'auditEntries'],
      async ({ countPlans, pointSets, calls, auditEntries }) => {
        const plan = await countPlans.get(id);
        if (!plan) return false;
        const sets = (await pointSets.all()).filter(({ planId }) => planId === id);
        for (const set of sets) if (await calls.first('pointSetId', set.id)) return false;
        for (const set of sets) await pointSets.delete(set.id);
        await countPlans.delete(id);
        await this.#note(auditEntries, 'countPlans', id, plan, null, by);
        return true;
      },
      changed,
    );
  }

  /** Adds a call; one on points that were removed meanwhile is not kept. */
  addCall(call: PointCallRecord): Promise<Written<boolean>> {
    return this.#context.write(
      ['pointSets', 'calls'],
      async ({ pointSets, calls }) => {
        if (!(await pointSets.get(call.pointSetId))) return false;
        await calls.put(call);
        return true;
      },
      changed,
    );
  }

  /** Keeps points that stand in for others; none is ever taken away. */
  replacePoints(id: string, set: PointSet, by: string | null): Promise<Written<boolean>> {
    return this.#context.write(
      ['pointSets', 'auditEntries'],
      async ({ pointSets, auditEntries }) => {
        const before = await pointSets.get(id);
        if (!before) return false;
        await pointSets.put({ ...before, set });
        const added = set.points.slice(before.set.points.length);
        await this.#note(auditEntries, 'pointSets', id, null, { points: added }, by);
        return true;
      },
      changed,
    );
  }

  addFieldCount(count: FieldCountRecord): Promise<Written<void>> {
    return this.#context.write(
      ['fieldCounts', 'auditEntries'],
      async ({ fieldCounts, auditEntries }) => {
        await fieldCounts.put(count);
        await this.#note(auditEntries, 'fieldCounts', count.id, null, count, count.observer);
      },
      changed,
    );
  }

  /** Takes a count on the turf back; what it was stays in the audit. */
  removeFieldCount(id: string, by: string | null): Promise<Written<boolean>> {
    return this.#context.write(
      ['fieldCounts', 'auditEntries'],
      async ({ fieldCounts, auditEntries }) => {
        const before = await fieldCounts.get(id);
        if (!before) return false;
        await fieldCounts.delete(id);
        await this.#note(auditEntries, 'fieldCounts', id, before, null, by);
        return true;
      },
      changed,
    );
  }

  addTest(test: ObserverTestRecord): Promise<Written<void>> {
    return this.#context.write(['observerTests'], ({ observerTests }) => observerTests.put(test), changed);
  }

  /** Keeps figures as the newest of their method, all in one go; photos removed meanwhile are passed over. */
  keepFigures(figures: readonly FigureOfPhoto[], by: string): Promise<Written<number>> {
    return this.#context.write(
      ['photos', 'figures', 'auditEntries'],
      async (tables) => {
        let kept = 0;
        for (const { photoId, figure } of figures) {
          const photo = await tables.photos.get(photoId);
          if (!photo) continue;
          const origin = { id: this.#context.newId(), measuredAt: this.#context.now(), measuredBy: by };
          await putFigure(tables.figures, photo, figure, { ...origin, correctionsSha256: null });
          await this.#note(tables.auditEntries, 'figures', origin.id, null, { method: figure.method }, by);
          kept += 1;
        }
        return kept;
      },
      () => ({ photoIds: figures.map(({ photoId }) => photoId), points: true }),
    );
  }

  #note(
    auditEntries: CheckedTable<'auditEntries'>,
    subject: TableName,
    subjectId: string,
    before: unknown,
    after: unknown,
    by: string | null,
  ): Promise<void> {
    const entry = { id: this.#context.newId(), at: this.#context.now(), by, field: null, reason: null };
    return auditEntries.put({ ...entry, subject, subjectId, before, after });
  }
}

const by =
  <T>(of: (record: T) => string) =>
  (a: T, b: T): number =>
    of(a) < of(b) ? -1 : Number(of(a) > of(b));
