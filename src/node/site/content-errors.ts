import { check, reportText } from '../../core/check/index.ts';
import type { Site } from './open-site.ts';

/** The content has errors: nothing is built from it. The message is the checker's whole report. */
export class ContentErrors extends Error {
  constructor(report: string) {
    super(`the site is not built, because the content has errors\n\n${report}`);
    this.name = 'ContentErrors';
    // Whoever reads this mends a content file; where in the program it was found helps nobody.
    this.stack = '';
  }
}

/** The checker's report of the errors of a shop; nothing when there are none. */
export function errorReport({ shop, diagnostics, texts, now }: Site): string | undefined {
  const today = now.toISOString().slice(0, 10);
  const errors = check(shop, diagnostics, { today }).filter(({ severity }) => severity === 'error');
  return errors.length > 0 ? reportText(errors, texts) : undefined;
}
