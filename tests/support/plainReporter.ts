import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with "N passed, N failed, N skipped" alone on its line; a file that cannot load counts as failed. */
export default class PlainReporter implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state !== 'pending') count[state] += 1;
      }
      if (module.errors().length > 0) count.failed += 1;
    }
    process.stdout.write(`\n${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped\n`);
  }
}
