import { defineConfig } from 'vitest/config';
import { kernelsPlugin } from '../src/setup/kernelsPlugin.mjs';

/** Unit, architecture and parity tests. Browser tests have a configuration of their own in tests/e2e. */
export default defineConfig({
  plugins: [kernelsPlugin()],
  test: {
    root: '.',
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['**/node_modules/**', 'dist/**', 'tests/e2e/**', 'tests/bench/**'],
    reporters: ['default', './tests/support/plainReporter.ts'],
    maxWorkers: 2,
    testTimeout: 20_000,
  },
});
