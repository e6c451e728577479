import { dataPackageDescriptor, type PackageFile } from '../../../core/exchange/dataPackage.ts';
import { dataPackageTables, type PackagedTrial } from '../../../core/exchange/dataPackageTables.ts';
import { ANALYSIS_R } from '../../../core/exchange/rScript.ts';
import { archiveText } from '../../../core/text/archive.ts';
import { RESULTS_CAUTION } from '../../../core/text/statisticsCommands.ts';
import { zipWriter } from '../../../zip/zipWriter.ts';
import { sha256Of } from '../sha256Of.ts';

/**
 * All tables of a trial in one zip file: CSV, descriptor, R script where there is a comparison.
 *
 * @returns how many tables
 */
export async function writeTables(
  trial: PackagedTrial,
  out: WritableStream<Uint8Array>,
  { name, softwareVersion, now }: { name: string; softwareVersion: string; now: Date },
): Promise<number> {
  const tables = dataPackageTables(trial);
  const zip = zipWriter(out, now);
  const files = new Map<string, PackageFile>();
  const add = async (path: string, text: string) => {
    const bytes = new TextEncoder().encode(text);
    await zip.add(path, bytes, true);
    return { bytes: bytes.length, sha256: await sha256Of(bytes) };
  };
  for (const table of tables) files.set(table.name, await add(`${table.name}.csv`, table.csv));
  const head = { name, trial: trial.plan?.trial.name ?? null, createdAt: now.toISOString(), softwareVersion };
  await add('datapackage.json', dataPackageDescriptor(tables, files, head));
  if (trial.comparison) await add('analysis.R', ANALYSIS_R);
  await add('README.txt', archiveText.tables.readme(RESULTS_CAUTION));
  await zip.close();
  return tables.length;
}
