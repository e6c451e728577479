import { writeFileSync } from 'node:fs';
import { cpus, release, totalmem } from 'node:os';
import { PARTS } from './parts.ts';
import { type TargetRow, targetTable } from './targets.ts';

/** Runs the chosen parts of the benchmark, or all, prints tables and writes a JSON file. @returns the exit code */
export async function main(args: readonly string[]): Promise<number> {
  const chosen: string[] = [];
  let out: string | null = null;
  for (let i = 0; i < args.length; i += 1) {
    const argument = args[i]!;
    if (Object.hasOwn(PARTS, argument)) chosen.push(argument);
    else if (argument === '--out' && args[i + 1]) out = args[++i]!;
    else {
      const names = Object.keys(PARTS).join('|');
      console.error(`npm run bench -- [${names}]… [--out FILE.json]; not understood: ${argument}`);
      return 2;
    }
  }
  const rows: TargetRow[] = [];
  const results: Record<string, unknown> = {};
  const seconds: Record<string, number> = {};
  for (const [name, run] of Object.entries(PARTS)) {
    if (chosen.length > 0 && !chosen.includes(name)) continue;
    const started = performance.now();
    const part = await run();
    seconds[name] = Math.round((performance.now() - started) / 1000);
    console.log(`-- ${name}: ${seconds[name]} s`);
    if (part.text) console.log(`${part.text}\n`);
    rows.push(...part.rows);
    results[name] = part.data;
  }
  const made = {
    type: 'bench-results',
    version: 1,
    measuredAt: new Date().toISOString(),
    machine: machine(),
  };
  console.log(`${machineText(made.machine)}, ${made.measuredAt.slice(0, 10)}\n\n${targetTable(rows)}`);
  if (out) writeFileSync(out, `${JSON.stringify({ ...made, seconds, rows, ...results }, null, 1)}\n`);
  return 0;
}

const machine = () => ({
  processor: cpus()[0]?.model ?? 'unknown',
  cores: cpus().length,
  memoryGiB: Math.round(totalmem() / 2 ** 30),
  system: `${process.platform} ${release()}`,
  node: process.version,
});

const machineText = ({ processor, cores, memoryGiB, system, node }: ReturnType<typeof machine>) =>
  `${processor}, ${cores} cores, ${memoryGiB} GiB, ${system}, Node ${node}`;
