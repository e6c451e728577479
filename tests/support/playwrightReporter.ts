import type { FullResult, Reporter, Suite, TestError } from '@playwright/test/reporter';

/** Ends a run with "N passed, N failed, N skipped" alone on its line; an error outside a test counts as failed. */
export default class PlaywrightReporter implements Reporter {
  #suite: Suite | null = null;
  #errors = 0;

  onBegin(_config: unknown, suite: Suite): void {
    this.#suite = suite;
  }

  onError(error: TestError): void {
    this.#errors += 1;
    process.stdout.write(`${error.message ?? error.value ?? 'unknown error'}\n`);
  }

  onEnd(_result: FullResult): void {
    const count = { expected: 0, unexpected: this.#errors, flaky: 0, skipped: 0 };
    for (const test of this.#suite?.allTests() ?? []) count[test.outcome()] += 1;
    process.stdout.write(
      `\n${count.expected + count.flaky} passed, ${count.unexpected} failed, ${count.skipped} skipped\n`,
    );
  }

  printsToStdio(): boolean {
    return false;
  }
}
