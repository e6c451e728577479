import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dataPackageTables, type PackagedTrial } from '../../src/core/exchange/dataPackageTables.ts';
import { ANALYSIS_R } from '../../src/core/exchange/rScript.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
import { packagedPhotos, packagedSample } from '../support/packagedSample.ts';

/** What R made of the tables of one trial. */
export interface ScriptRun {
  readonly name: string;
  /** Null where R is not installed. */
  readonly passed: boolean | null;
  /** Largest difference between R's values and the printed ones, relative; null where it stopped before the end. */
  readonly largestDifference: number | null;
  readonly said: string;
}

/** Runs analysis.R, as it is exported, on tables of the sample trial: three transforms, missing plots, other designs. */
export function runAnalysisScript(): ScriptRun[] {
  const plan = samplePlan();
  const without = (plots: readonly string[]) =>
    packagedPhotos().filter(({ plot, ratingDate }) => ratingDate !== '2027-05-17' || !plots.includes(plot!));
  const square = samplePlan();
  const latin = {
    ...square,
    layout: square.layout && { ...square.layout, design: 'latin-square' as const },
    // any square will do for the arithmetic: treatments go round by one from row to row
    plots: square.plots.map((plot, index) => {
      const [row, column] = [Math.floor(index / 4), index % 4];
      return { ...plot, row: row + 1, column: column + 1, treatment: 1 + ((row + column) % 4) };
    }),
  };
  const random = {
    ...square,
    layout: square.layout && { ...square.layout, design: 'completely-randomized' as const },
  };
  return [
    run('complete blocks', packagedSample()),
    run('arcsine', packagedSample({ transform: 'arcsine-square-root' })),
    run('logarithm, alpha 0.01', packagedSample({ transform: 'log', alpha: 0.01 })),
    run('two missing plots', packagedSample({}, plan, without(['102', '303']))),
    run('latin square', packagedSample({}, latin)),
    run('completely randomised', packagedSample({}, random)),
  ];
}

function run(name: string, trial: PackagedTrial): ScriptRun {
  const folder = mkdtempSync(join(tmpdir(), 'swardbook-r-'));
  try {
    for (const { name: table, csv } of dataPackageTables(trial))
      writeFileSync(join(folder, `${table}.csv`), csv);
    writeFileSync(join(folder, 'analysis.R'), ANALYSIS_R);
    const { status, error, stdout, stderr } = spawnSync(
      process.env.RSCRIPT ?? 'Rscript',
      ['--vanilla', 'analysis.R'],
      {
        cwd: folder,
        encoding: 'utf8',
      },
    );
    if (error) return { name, passed: null, largestDifference: null, said: error.message };
    const found = /largest difference is (\S+)/.exec(stdout)?.[1];
    const said = status === 0 ? stdout : stderr;
    return {
      name,
      passed: status === 0,
      largestDifference: found === undefined ? null : Number(found),
      said,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
