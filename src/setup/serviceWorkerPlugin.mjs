// Builds the service worker and tells it which files there are. No dependencies but Vite, which is given.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

const NAME = 'virtual:offline-files';
const RESOLVED = `\0${NAME}`;
/** Fetched one by one when somebody asks for the sample trial. */
const NOT_OFFLINE = /\.(jpg|jpeg|zip)$|^service-worker\.js$|^\.vite\//;

/**
 * @param {{ entry: string, build: typeof import('vite').build }} options `entry`: source of the service worker
 * @returns {import('vite').Plugin}
 */
export function serviceWorkerPlugin({ entry, build }) {
  let folder = '';
  return {
    name: 'service-worker',
    apply: 'build',
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
      if (config.build.outDir.startsWith(sep)) folder = config.build.outDir;
    },
    async closeBundle() {
      const files = filesBelow(folder).filter((path) => !NOT_OFFLINE.test(path));
      const hash = createHash('sha256');
      for (const path of files) hash.update(path).update(readFileSync(join(folder, path)));
      const source = readFileSync(entry);
      const buildId = hash.update(source).digest('hex').slice(0, 16);
      const paths = files.map((path) => `./${path}`);
      await build({
        configFile: false,
        publicDir: false,
        logLevel: 'error',
        build: {
          outDir: folder,
          emptyOutDir: false,
          copyPublicDir: false,
          rollupOptions: {
            input: entry,
            output: { format: 'iife', entryFileNames: 'service-worker.js' },
          },
        },
        plugins: [
          {
            name: 'offline-files',
            resolveId: (id) => (id === NAME ? RESOLVED : null),
            load: (id) =>
              id === RESOLVED
                ? `export const BUILD = ${JSON.stringify(buildId)};\nexport const OFFLINE_FILES = ${JSON.stringify(paths)};`
                : null,
          },
        ],
      });
    },
  };
}

/** Paths below a folder with forward slashes, sorted. */
function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      relative(folder, join(entry.parentPath ?? entry.path, entry.name))
        .split(sep)
        .join('/'),
    )
    .sort();
}
