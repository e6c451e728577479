import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';

const project = fileURLToPath(new URL('../../', import.meta.url));
const PORT = Number(process.env.SWARDBOOK_TEST_PORT ?? 4187);
/** The built page; `npm test` builds it before. Another build can be tested by naming its folder here. */
const built = resolve(project, process.env.SWARDBOOK_DIST ?? 'dist');

/** Whole tasks in a real browser, each in a profile of its own on disk. */
export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results',
  fullyParallel: true,
  workers: 2,
  // a machine busy with other work may miss a moment once; what fails twice is wrong
  retries: 1,
  timeout: 90_000,
  expect: { timeout: 20_000 },
  forbidOnly: true,
  reporter: [['list'], ['../support/playwrightReporter.ts']],
  use: { baseURL: `http://localhost:${PORT}/` },
  webServer: {
    command: `npx vite preview -c src/vite.config.ts --outDir "${built}" --port ${PORT} --strictPort --logLevel warn`,
    cwd: '../..',
    port: PORT,
    reuseExistingServer: false,
  },
});
