import { Command, CommanderError } from 'commander';
import { cli } from '../core/text/cli.ts';
import { addAdjustCommand } from './adjust.ts';
import { addCompareCommand } from './compare.ts';
import { addMeasureCommand } from './measure.ts';
import { UsageError } from './usageError.ts';
import { addVerifyCommand } from './verify.ts';

/** Unusable arguments or files. */
const UNUSABLE = 2;

const program = new Command('swardbook')
  .description(cli.description)
  .exitOverride()
  .showHelpAfterError('(--help lists what there is)');
addMeasureCommand(program);
addCompareCommand(program);
addAdjustCommand(program);
addVerifyCommand(program);

// whoever reads the table may stop reading, as `head` does
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : UNUSABLE;
  } else if (error instanceof UsageError) {
    process.stderr.write(`${error.message}\n`);
    process.exitCode = UNUSABLE;
  } else {
    throw error;
  }
}
