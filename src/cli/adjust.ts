import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { type AdjustedCover, adjustCover, type ReferenceCounts } from '../core/cover/adjustedCover.ts';
import { writeAdjustedCover } from '../core/exchange/adjustedCover.ts';
import { readReferenceCounts } from '../core/exchange/referenceCounts.ts';
import { noteText } from '../core/text/statistics.ts';
import {
  compareWords,
  referenceCountsProblemText,
  adjustWords as words,
} from '../core/text/statisticsCommands.ts';
import { textTable } from './textTable.ts';
import { reasonOf, UsageError } from './usageError.ts';
import { writeWhole } from './wholeFile.ts';

/** Adds `adjust` to the program. */
export function addAdjustCommand(program: Command): void {
  program
    .command('adjust')
    .summary(words.summary)
    .description(words.description)
    .argument('<reference-counts>', words.file)
    .option('--json <file>', words.json)
    .action(async (path: string, options: { readonly json?: string }) => {
      await adjust(path, options.json);
    });
}

/** @throws UsageError for what cannot be used */
async function adjust(path: string, json: string | undefined): Promise<void> {
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw new UsageError(compareWords.cannotRead(path, reasonOf(error)));
  });
  const reading = readReferenceCounts(text);
  if (!reading.ok) throw new UsageError(words.cannotUse(path, referenceCountsProblemText(reading.problem)));
  const adjusted = adjustCover(reading.reference);
  if (json !== undefined) {
    const document = writeAdjustedCover(adjusted, noteText);
    if (json === '-') {
      process.stdout.write(document);
      return;
    }
    await writeWhole(json, document).catch((error: unknown) => {
      throw new UsageError(compareWords.cannotWrite(json, reasonOf(error)));
    });
  }
  process.stdout.write(adjustedCoverTable(reading.reference, adjusted));
}

/** Adjusted cover as plain text for the terminal, in percent. */
function adjustedCoverTable(reference: ReferenceCounts, adjusted: AdjustedCover): string {
  const percent = (fraction: number | null): string =>
    fraction === null ? '-' : (100 * fraction).toFixed(2);
  const limits = (low: number | null, high: number | null): string =>
    low === null || high === null ? '-' : `${percent(low)} to ${percent(high)}`;
  const right = (title: string) => ({ title, align: 'right' }) as const;
  const table = textTable(
    [
      { title: words.class, align: 'left' },
      right(words.mapped),
      right(words.adjusted),
      right(words.standardError),
      right(words.limits),
      right(words.users),
      right(words.standardError),
      right(words.producers),
      right(words.standardError),
    ],
    adjusted.classes.map((name, i) => [
      name,
      percent(reference.mappedFraction[i]!),
      percent(adjusted.adjustedFraction[i]!),
      percent(adjusted.standardError[i]!),
      limits(adjusted.low[i]!, adjusted.high[i]!),
      percent(adjusted.usersAccuracy[i]!),
      percent(adjusted.usersStandardError[i]!),
      percent(adjusted.producersAccuracy[i]!),
      percent(adjusted.producersStandardError[i]!),
    ]),
  );
  const plain = (value: number | null): string => (value === null ? '-' : value.toFixed(3));
  const lines = [
    words.overall(percent(adjusted.overallAccuracy), percent(adjusted.overallStandardError)),
    words.kappa(plain(adjusted.kappa), plain(adjusted.kappaStandardError)),
    ...adjusted.notes.map((note) => `- ${noteText(note)}`),
  ];
  return `${table}\n\n${lines.join('\n')}\n`;
}
