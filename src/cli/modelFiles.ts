import { readFile } from 'node:fs/promises';
import type { NamedModel } from '../core/cover/measurePhoto.ts';
import { coverModelId, readCoverModel, writeCoverModel } from '../core/exchange/coverModel.ts';
import { cli } from '../core/text/cli.ts';
import { coverModelProblemText } from '../core/text/teaching.ts';
import { sha256 } from './sha256.ts';
import { reasonOf, UsageError } from './usageError.ts';
import { writeWhole } from './wholeFile.ts';

/** @throws UsageError if the file cannot be read or is no model this program can use */
export async function readModelFile(path: string): Promise<NamedModel> {
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw new UsageError(`--model "${path}": ${cli.measure.cannotRead(reasonOf(error))}`);
  });
  const reading = readCoverModel(text);
  if (!reading.ok) throw new UsageError(`--model "${path}": ${coverModelProblemText(reading.problem)}`);
  // the id is that of the content, however the file is laid out
  return { id: await coverModelId(reading.model, sha256), model: reading.model };
}

/** Where the model of a date is saved: the file named, or one a date beside it where there are several. */
export function modelPath(path: string, ratingDate: string | null, isOnlyOne: boolean): string {
  if (isOnlyOne) return path;
  const [, stem, ending] = /^(.*?)(\.[^./\\]*)?$/s.exec(path)!;
  return `${stem}-${ratingDate ?? 'undated'}${ending ?? ''}`;
}

/** @throws UsageError if a file cannot be written */
export async function saveModels(
  path: string,
  models: ReadonlyMap<string | null, NamedModel>,
  say: (line: string) => void,
): Promise<void> {
  for (const [date, { model }] of models) {
    const file = modelPath(path, date, models.size === 1);
    await writeWhole(file, writeCoverModel(model)).catch((error: unknown) => {
      throw new UsageError(cli.measure.cannotWrite(file, reasonOf(error)));
    });
    say(cli.measure.modelSaved(file));
  }
}
