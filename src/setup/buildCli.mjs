// Bundles the command line and its worker when their sources changed.
import { mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fingerprint } from './freshness.mjs';
import { projectFolder } from './install.mjs';
import { kernelsPlugin } from './kernelsPlugin.mjs';

const SOURCES = ['src/core', 'src/cli', 'src/kernels', 'src/vision', 'src/zip', 'package-lock.json'];
const CACHE = join(projectFolder, 'node_modules', '.cache', 'swardbook');
/** Bundles of earlier sources that stay, since a run may still start threads from them. */
const KEPT = 5;

/**
 * Bundles into a folder named after the sources' state, so that two commands at once do not disturb each other.
 *
 * @returns path of the bundled main.js
 */
export async function buildCli() {
  const folder = join(CACHE, fingerprint(SOURCES).slice(0, 16));
  const main = join(folder, 'main.js');
  if (statSync(main, { throwIfNoEntry: false })) return main;
  const { build } = await import('vite');
  const partial = `${folder}.part-${process.pid}`;
  await build({
    root: projectFolder,
    configFile: false,
    logLevel: 'error',
    publicDir: false,
    plugins: [kernelsPlugin()],
    build: {
      ssr: true,
      outDir: partial,
      target: 'node20',
      rollupOptions: {
        input: {
          main: join(projectFolder, 'src/cli/main.ts'),
          measureWorker: join(projectFolder, 'src/cli/measureWorker.ts'),
        },
        output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: 'part-[hash].js' },
      },
    },
  });
  mkdirSync(CACHE, { recursive: true });
  try {
    renameSync(partial, folder);
  } catch (error) {
    // another command was quicker with the same sources
    rmSync(partial, { recursive: true, force: true });
    if (!statSync(main, { throwIfNoEntry: false })) throw error;
  }
  removeOld();
  return main;
}

function removeOld() {
  const byAge = readdirSync(CACHE)
    .filter((name) => /^[0-9a-f]{16}$/.test(name))
    .map((name) => ({ path: join(CACHE, name), timeMs: statSync(join(CACHE, name)).mtimeMs }))
    .sort((a, b) => b.timeMs - a.timeMs);
  for (const { path } of byAge.slice(KEPT)) rmSync(path, { recursive: true, force: true });
}
