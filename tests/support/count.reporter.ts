import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line that scripts can count. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      let seen = 0;
      for (const test of module.children.allTests()) {
        seen += 1;
        const state = test.result().state;
        if (state === 'passed') counts.passed += 1;
        else if (state === 'skipped') counts.skipped += 1;
        else counts.failed += 1;
      }
      // A file that could not even be loaded counts as one failure.
      if (seen === 0 && module.state() === 'failed') counts.failed += 1;
    }
    const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
    console.log(`\n${counts.passed} passed, ${counts.failed} failed${skipped}`);
  }
}
