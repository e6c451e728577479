import { Command } from 'commander';
import { vi } from 'vitest';
import { UsageError } from '../../src/cli/usageError.ts';

/** What a command wrote, and the sentence it refused with. */
export interface CommandRun {
  readonly output: string;
  readonly refusal: string | null;
}

/** Runs one command of the program in this process; a refusal is what ends the program with exit code 2. */
export async function runCommand(
  add: (program: Command) => void,
  args: readonly string[],
): Promise<CommandRun> {
  const program = new Command('swardbook').exitOverride();
  add(program);
  let output = '';
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    output += String(text);
    return true;
  });
  try {
    await program.parseAsync(['node', 'swardbook', ...args]);
    return { output, refusal: null };
  } catch (error) {
    if (error instanceof UsageError) return { output, refusal: error.message };
    throw error;
  } finally {
    write.mockRestore();
  }
}
