import { readdirSync, writeFileSync } from 'node:fs';
import { blobSource } from '../../src/app/session/archive/blobSource.ts';
import { exportArchive } from '../../src/app/session/archive/exportArchive.ts';
import { SOFTWARE_VERSION } from '../../src/app/session/softwareVersion.ts';
import { openZip } from '../../src/zip/zipReader.ts';
import { zipWriter } from '../../src/zip/zipWriter.ts';
import { makeSampleTrial } from './makeSampleTrial.ts';

/** The archive without its photos, which lie beside it as files of their own. */
export const RECORDS = 'sample-images/trial-records.zip';
/** Noted in the zip files: the same program writes the same bytes. */
const MADE_AT = new Date('2027-08-02T08:00:00.000Z');

/**
 * Makes the sample trial's records.
 *
 * @param args `--whole FILE` writes the whole archive as well, photos included, e.g. for `swardbook verify`
 */
export async function main(args: readonly string[]): Promise<number> {
  const names = readdirSync('sample-images/photos').filter((name) => name.endsWith('.jpg'));
  const say = (line: string) => void process.stderr.write(`${line}\n`);
  const { store, trial } = await makeSampleTrial({ names: names.sort(), say });
  const plan = trial.trial.get();
  const trialId = plan.state === 'open' ? plan.id : null;
  const options = { softwareVersion: SOFTWARE_VERSION, now: () => MADE_AT };
  const whole = await written((out) => exportArchive(store, { trialId }, out, options));
  const at = args.indexOf('--whole');
  if (at >= 0) writeFileSync(args[at + 1]!, whole);
  const opening = await openZip(blobSource(new Blob([whole])));
  if (!opening.ok) throw new Error(opening.problem.code);
  const records = await written(async (out) => {
    const zip = zipWriter(out, MADE_AT);
    for (const { path } of opening.zip.entries) {
      if (path.startsWith('photos/')) continue;
      await zip.add(path, await opening.zip.read(path), /\.(json|ndjson|layer)$/.test(path));
    }
    await zip.close();
  });
  writeFileSync(RECORDS, records);
  say(`${RECORDS}: ${(records.length / 1024).toFixed(0)} KiB, ${names.length} photos beside it`);
  return 0;
}

async function written(
  write: (out: WritableStream<Uint8Array>) => Promise<unknown>,
): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  await write(new WritableStream({ write: (piece) => void pieces.push(new Uint8Array(piece)) }));
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}
