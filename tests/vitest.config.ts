import { defineConfig } from 'vitest/config';
import { kernelsPlugin } from '../src/setup/kernelsPlugin.mjs';

const OTHER_RUNNERS = ['**/node_modules/**', 'dist/**', 'tests/e2e/**', 'tests/bench/**'];
/** Tests that start the command line or a browser: whole seconds each, and as many cores as there are. */
const STARTING_PROCESSES = ['tests/cli/**/*.test.ts', 'tests/parity/**/*.test.ts'];

/**
 * Two projects, together or by `--project`: `unit`, with the architecture, and `processes`: the command line as a process, page
 * and Node held against each other. Browser tests have a configuration of their own in tests/e2e.
 */
export default defineConfig({
  test: {
    root: '.',
    reporters: ['default', './tests/support/plainReporter.ts'],
    maxWorkers: 2,
    projects: [
      {
        plugins: [kernelsPlugin()],
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...OTHER_RUNNERS, ...STARTING_PROCESSES],
          testTimeout: 20_000,
          // half the processor time; a test that changes what modules share puts it back (see DEVELOPERS.md)
          isolate: false,
        },
      },
      {
        plugins: [kernelsPlugin()],
        test: {
          name: 'processes',
          include: STARTING_PROCESSES,
          exclude: OTHER_RUNNERS,
          testTimeout: 60_000,
          // tests of one file that are marked so; two files run at a time
          maxConcurrency: 2,
        },
      },
    ],
  },
});
