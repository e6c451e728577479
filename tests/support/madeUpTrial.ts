import type { Page } from '@playwright/test';
import { storedDeclaration } from '../../src/core/exchange/declaredAnalysis.ts';
import type { DeclaredAnalysis } from '../../src/core/statistics/declaredAnalysis.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { repeatableRandom } from '../../src/core/trial/repeatableRandom.ts';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';

/** A trial of any size with made-up cover, as records of the page's database. */
export interface MadeUpTrial {
  readonly treatments: number;
  /** 0: completely randomized with `replicates` plots a treatment. */
  readonly blocks: number;
  readonly dates: number;
  /** @default blocks */
  readonly replicates?: number;
  /** Weedy grass cover in percent of a plot; null for a plot that was not photographed. */
  readonly cover: (at: {
    readonly treatment: number;
    readonly block: number;
    readonly date: number;
    readonly random: () => number;
  }) => number | null;
  /** @default treatment 1 */
  readonly control?: boolean;
  /** @default the last date decides; null leaves it undeclared */
  readonly declared?: Partial<DeclaredAnalysis> | null;
  readonly plan?: (plan: TrialPlan) => TrialPlan;
}

const START = Date.UTC(2027, 2, 15);
const WEEK_MS = 7 * 86_400_000;
const AT = '2027-09-01T08:00:00.000Z';

export const dateOf = (index: number): string => new Date(START + index * WEEK_MS).toISOString().slice(0, 10);

/** All records of a made-up trial, by table. */
export function madeUpRecords(trial: MadeUpTrial): Record<string, object[]> {
  const { blocks, dates, replicates = blocks, control = true } = trial;
  const random = repeatableRandom(20270726);
  const plan = madeUpPlan(trial, replicates, control);
  const photos: object[] = [];
  const figures: object[] = [];
  for (let date = 0; date < dates; date += 1) {
    for (const { plot, treatment, row } of plan.plots) {
      const percent = trial.cover({ treatment, block: row, date, random });
      if (percent === null) continue;
      const id = `${plot} ${date}`;
      photos.push(photoRecord(id, plot, dateOf(date)));
      figures.push(figureRecord(id, percent / 100));
    }
  }
  const trialRecord = {
    id: 'made-up',
    plan,
    photoRules: {
      fileNamePatterns: [],
      walk: { along: 'rows', turn: 'there-and-back', startRow: 'first', startColumn: 'first' },
      orderTrusted: false,
    },
    createdAt: AT,
    changedAt: AT,
  };
  const declaration =
    trial.declared === null
      ? []
      : [
          {
            id: 'declaration',
            trialId: 'made-up',
            declaration: storedDeclaration({
              variable: { kind: 'class', classId: 'weedy-grass' },
              method: 'automatic',
              when: { kind: 'date', ratingDate: dateOf(Math.max(0, dates - 1)) },
              transform: 'none',
              alpha: 0.05,
              controlThreshold: 20,
              minimumPressure: 5,
              classes: plan.trial.classes,
              gapRule: plan.trial.gapRule,
              exclusions: plan.exclusions,
              ...trial.declared,
            }),
            by: 'K',
            at: AT,
            amends: null,
            reason: null,
          },
        ];
  return { trials: [trialRecord], declarations: declaration, photos, figures };
}

function madeUpPlan(
  { treatments, blocks, plan = (made) => made }: MadeUpTrial,
  replicates: number,
  control: boolean,
): TrialPlan {
  return plan({
    type: 'trial-plan',
    version: 1,
    trial: {
      code: 'K7QF3M',
      name: 'Outfield west',
      site: { name: 'Larkrise Park', latitudeDegrees: null, longitudeDegrees: null, notes: '' },
      turf: { species: 'perennial ryegrass', cultivar: null, sownOver: null },
      sowing: { date: '2027-03-08', rate: null },
      mowing: { heightMm: null, notes: '' },
      soil: '',
      irrigation: '',
      plotSize: null,
      classes: DEFAULT_CLASSES.map((one) => ({ ...one })),
      gapRule: { kind: 'every-pixel' },
      raters: [],
    },
    treatments: Array.from({ length: treatments }, (_, index) => ({
      number: index + 1,
      name: index === 0 ? 'untreated control' : `coded product L-${30 + index}`,
      untreatedControl: control && index === 0 ? ('included' as const) : null,
      levels: {},
      notes: '',
    })),
    applications: [],
    seasonLimits: [],
    layout: {
      design: blocks === 0 ? 'completely-randomized' : 'randomized-complete-block',
      replicates,
      rowsPerBlock: 1,
      blocksAcross: 1,
      numbering: 'by-block',
      seed: null,
      swaps: [],
    },
    plots: Array.from({ length: replicates }, (_, row) =>
      Array.from({ length: treatments }, (__, column) => ({
        plot: `${(row + 1) * 1000 + column + 1}`,
        block: blocks === 0 ? null : row + 1,
        treatment: ((column + row) % treatments) + 1,
        row: row + 1,
        column: column + 1,
      })),
    ).flat(),
    framePlan: null,
    ratings: [],
    ratedVariables: [],
    deviations: [],
    exclusions: [],
  });
}

const SHA = 'a'.repeat(64);

const photoRecord = (id: string, plot: string, ratingDate: string) => ({
  id,
  trialId: null,
  name: `${ratingDate}_${plot}.jpg`,
  // one hash would make them one photo
  sha256: [...id]
    .reduce((hash, character) => hash + character.charCodeAt(0).toString(16), '')
    .padEnd(64, '0'),
  byteCount: 1,
  plot,
  place: null,
  ratingDate,
  namedBy: 'person',
  takenAt: null,
  widthPx: 10,
  heightPx: 10,
  addedAt: AT,
});

const figureRecord = (photoId: string, weeds: number) => ({
  id: `figure ${photoId}`,
  photoId,
  current: 1,
  method: 'automatic',
  cover: [
    { classId: 'ryegrass', pixels: 50, coverFraction: (1 - weeds) * 0.9 },
    { classId: 'weedy-grass', pixels: 40, coverFraction: weeds },
    { classId: 'bare-ground', pixels: 10, coverFraction: (1 - weeds) * 0.1 },
  ],
  flags: [],
  measuredPixels: 100,
  millimetresPerPixel: null,
  modelId: 'start-1',
  measuredAt: AT,
  measuredBy: null,
  softwareVersion: 'made up',
  decoder: 'made up',
  settings: { classes: DEFAULT_CLASSES, frame: null, ignored: [], neutral: null },
  photoSha256: SHA,
  correctionsSha256: null,
});

/** Puts records into the database of an open page, which has to be opened anew then. */
export async function putRecords(page: Page, records: Record<string, object[]>): Promise<void> {
  // the start screen may be there before the database: opening it now would make an empty one
  await page.waitForFunction(async () =>
    (await indexedDB.databases()).some(({ name }) => name === 'swardbook'),
  );
  await page.evaluate(async (tables) => {
    const opened = indexedDB.open('swardbook');
    await new Promise((done, fail) => {
      opened.onsuccess = done;
      opened.onerror = () => fail(opened.error);
    });
    const database = opened.result;
    const transaction = database.transaction(Object.keys(tables), 'readwrite');
    for (const [name, rows] of Object.entries(tables)) {
      const store = transaction.objectStore(name);
      for (const row of rows) store.put(row);
    }
    await new Promise((done, fail) => {
      transaction.oncomplete = done;
      transaction.onerror = () => fail(transaction.error);
    });
    database.close();
  }, records);
}
