import { type ChildProcess, spawn } from 'node:child_process';
import { buildCli } from '../../src/setup/buildCli.mjs';

/** The command line as `npm run swardbook` bundles it: once, so that all runs of a test file are of one program. */
export const bundled: Promise<string> = buildCli();

export interface CommandResult {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Starts the command line; `ended` tells what it said and its exit code. */
export async function startSwardbook(
  ...args: string[]
): Promise<{ child: ChildProcess; ended: Promise<CommandResult> }> {
  const child = spawn(process.execPath, [await bundled, ...args]);
  let stdout = '';
  let stderr = '';
  child.stdout.setEncoding('utf8').on('data', (text) => {
    stdout += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text) => {
    stderr += text;
  });
  const ended = new Promise<CommandResult>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
  return { child, ended };
}

/** Runs the command line to its end. */
export async function swardbook(...args: string[]): Promise<CommandResult> {
  return (await startSwardbook(...args)).ended;
}
