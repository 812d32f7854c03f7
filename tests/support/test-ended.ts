import type { Reporter } from 'vitest/node';

/** A reporter that sends whoever started vitest a message for each test that has ended. */
export default class TestEnded implements Reporter {
  onTestCaseResult(): void {
    process.send?.('test ended');
  }
}
