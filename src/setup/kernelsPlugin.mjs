// Compiles src/kernels to WebAssembly for every build, and serves the bytes as a module of their own.
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectFolder } from './install.mjs';

const MODULE = 'virtual:kernels';
const FOLDER = join(projectFolder, 'src', 'kernels');
const CACHE = join(projectFolder, 'node_modules', '.cache', 'swardbook');
const OPTIONS = ['--optimizeLevel', '3', '--converge', '--noAssert', '--runtime', 'stub', '--enable', 'simd'];

/** Vite plugin: `import { KERNELS_BASE64 } from 'virtual:kernels'` in page, workers, Node bundles and tests alike. */
export function kernelsPlugin() {
  return {
    name: 'kernels',
    resolveId: (id) => (id === MODULE ? `\0${MODULE}` : undefined),
    async load(id) {
      if (id !== `\0${MODULE}`) return undefined;
      for (const name of sourceNames()) this.addWatchFile?.(join(FOLDER, name));
      const bytes = await compiledKernels();
      return `export const KERNELS_BASE64 = '${Buffer.from(bytes).toString('base64')}';`;
    },
  };
}

const sourceNames = () =>
  readdirSync(FOLDER)
    .filter((name) => name.endsWith('.ts'))
    .sort();

/** Compiled once per state of the sources; the file's name is that state. */
async function compiledKernels() {
  const hash = createHash('sha256').update(OPTIONS.join(' '));
  for (const name of sourceNames()) hash.update(name).update(readFileSync(join(FOLDER, name)));
  const file = join(CACHE, `kernels-${hash.digest('hex').slice(0, 16)}.wasm`);
  if (statSync(file, { throwIfNoEntry: false })) return readFileSync(file);
  const asc = await import('assemblyscript/asc');
  let bytes;
  const { error, stderr } = await asc.main(
    ['index.ts', '--baseDir', FOLDER, '--outFile', 'kernels.wasm', ...OPTIONS],
    {
      writeFile: (_name, contents) => {
        bytes = contents;
      },
    },
  );
  if (error) throw new Error(`src/kernels was not compiled: ${error.message}\n${stderr}`);
  mkdirSync(CACHE, { recursive: true });
  const partial = `${file}.part-${process.pid}`;
  writeFileSync(partial, bytes);
  renameSync(partial, file);
  return bytes;
}
