import { writeFileSync } from 'node:fs';
import { cpus, release, totalmem } from 'node:os';
import { accuracyTable, measureAccuracy } from './accuracy.ts';
import { measureBatchSpeed } from './batchSpeed.ts';
import { maskEditingTable, measureMaskEditing } from './maskEditing.ts';
import { measureMemory } from './memory.ts';
import { measurePhotoSpeed } from './photoSpeed.ts';
import { type TargetRow, targetTable } from './targets.ts';
import { measureTaughtAccuracy, taughtTable } from './taughtAccuracy.ts';

const PARTS = ['accuracy', 'taught', 'editing', 'speed', 'batch', 'memory'] as const;
type Part = (typeof PARTS)[number];

/** Runs the chosen parts of the benchmark, prints tables and writes a JSON file. @returns the exit code */
export async function main(args: readonly string[]): Promise<number> {
  const chosen: Part[] = [];
  let out: string | null = null;
  for (let i = 0; i < args.length; i += 1) {
    const part = PARTS.find((name) => name === args[i]);
    if (part) chosen.push(part);
    else if (args[i] === '--out' && args[i + 1]) out = args[++i]!;
    else {
      console.error(`npm run bench -- [${PARTS.join('|')}]… [--out FILE.json]; not understood: ${args[i]}`);
      return 2;
    }
  }
  const wanted = (part: Part) => chosen.length === 0 || chosen.includes(part);
  const rows: TargetRow[] = [];
  const results: Record<string, unknown> = {
    type: 'bench-results',
    version: 1,
    measuredAt: new Date().toISOString(),
    machine: machine(),
  };

  if (wanted('accuracy')) {
    const accuracy = await measureAccuracy();
    results.accuracy = accuracy;
    console.log(`${accuracyTable(accuracy)}\n`);
    const even = accuracy.summaries.find(({ name }) => name === 'even plots')!;
    const open = accuracy.openDataset;
    const meanOf = (value: (photo: NonNullable<typeof open>[number]) => number) =>
      open && open.reduce((sum, photo) => sum + value(photo), 0) / open.length;
    rows.push(
      row('start model, even plots, cover error', even.coverError, 'points', 6, 3),
      row(
        'open dataset, mean of two IoUs',
        meanOf(({ meanIou }) => meanIou),
        '',
        0.85,
        null,
        false,
      ),
      row(
        'open dataset, cover error',
        meanOf(({ coverError }) => coverError),
        'points',
        2.5,
        null,
      ),
    );
  }
  if (wanted('taught')) {
    const taught = await measureTaughtAccuracy();
    results.taught = taught;
    console.log(`${taughtTable(taught)}\n`);
    const [same, date] = [
      taught.summaries[0]!,
      taught.summaries.find(({ name }) => name.startsWith('date,'))!,
    ];
    const flaggedWrong =
      date.wrongByMoreThan5 === 0 ? null : (100 * date.wrongAndFlagged) / date.wrongByMoreThan5;
    rows.push(
      row('taught on the photo itself, cover error', same.coverError, 'points', 2, 1),
      row(
        'the same, mean IoU',
        same.meanIou,
        '',
        taught.peer?.meanIou ?? 0.54,
        (taught.peer?.meanIou ?? 0.54) + 0.03,
        false,
      ),
      row(
        'taught on four plots of a date, cover error of unflagged photos',
        date.unflaggedCoverError,
        'points',
        3,
        1.5,
      ),
      row('the same, photos flagged', 100 * date.flaggedShare, '%', 25, 10),
      row('the same, photos wrong by more than 5 points that are flagged', flaggedWrong, '%', 80, 100, false),
    );
  }
  if (wanted('editing')) {
    const editing = await measureMaskEditing();
    results.editing = editing;
    console.log(`${maskEditingTable(editing)}\n`);
    rows.push(row('undo of 200 strokes on a 12-MP mask', editing.strokes.patchesMb, 'MB', 60, 15));
  }
  if (wanted('speed')) {
    const speed = await measurePhotoSpeed();
    results.photoSpeed = speed;
    for (const photo of speed ?? []) {
      const stages = Object.entries(photo.stages).map(([stage, ratio]) => `${stage} ${ratio.toFixed(2)}`);
      console.log(
        `${photo.photo}, ${photo.browser}: decode ${photo.decodeMs.toFixed(0)} ms = 1; ${stages.join(', ')}; in all ${photo.totalInDecodes.toFixed(2)} (processor time ${photo.processorInDecodes.toFixed(2)})`,
      );
      rows.push(
        row(`${photo.photo}: 12-MP JPEG to cover, start model`, photo.totalInDecodes, 'x decode', 6, 2.5),
        row(`${photo.photo}: the same, processor time`, photo.processorInDecodes, 'x decode', 6, 2.5),
      );
    }
    if (!speed) rows.push(row('12-MP JPEG to cover, start model', null, 'x decode', 6, 2.5));
    console.log('');
  }
  if (wanted('batch')) {
    const batch = await measureBatchSpeed();
    results.batch = batch;
    rows.push(
      row('longest main-thread task during a batch', batch.longestTaskMs, 'ms', 50, 16),
      row('batch, two workers against one', batch.speedUp, 'times', 1.5, 1.7, false),
    );
  }
  if (wanted('memory')) {
    const memory = await measureMemory();
    results.memory = memory;
    rows.push(
      row('renderer peak, one 12-MP photo', memory.onePhotoPeakMib, 'MiB', 700, 400),
      row('renderer peak, 12-MP photos, two workers', memory.twoWorkersPeakMib, 'MiB', 1000, 600),
      row('renderer growth, photo 50 to 300', memory.growthPercent, '%', 5, 0),
    );
  }
  console.log(targetTable(rows));
  results.rows = rows;
  if (out) writeFileSync(out, `${JSON.stringify(results, null, 1)}\n`);
  return 0;
}

const row = (
  what: string,
  value: number | null,
  unit: string,
  must: number,
  goal: number | null,
  smallerIsBetter = true,
): TargetRow => ({ what, value, unit, must, goal, smallerIsBetter });

const machine = () => ({
  processor: cpus()[0]?.model ?? 'unknown',
  cores: cpus().length,
  memoryGiB: Math.round(totalmem() / 2 ** 30),
  system: `${process.platform} ${release()}`,
  node: process.version,
});
