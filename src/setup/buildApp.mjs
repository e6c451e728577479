// Builds the page into dist/ when its sources changed.
import { buildIfStale } from './freshness.mjs';
import { run } from './install.mjs';

const SOURCES = ['src', 'workers', 'sample-images', 'package-lock.json'];

export const buildApp = () =>
  buildIfStale('dist/index.html', SOURCES, () =>
    run('npx', ['vite', 'build', '-c', 'src/vite.config.ts', '--logLevel', 'error']),
  );
