import { check, reportText } from '../../core/check/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import type { FileSum } from '../files/index.ts';
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

const known = new WeakMap<Site, readonly Diagnostic[]>();

/** What a check has found that had read the same; of another reading it says nothing. */
export interface Checked {
  readonly diagnostics: readonly Diagnostic[];
  readonly sums: ReadonlyMap<string, FileSum>;
}

/** A check of the folder that the site is made from is taken for the errors of the site, where both have read the same. */
export function takeErrors(site: Site, { diagnostics, sums }: Checked): void {
  const same = sums.size === site.sums.size && [...sums].every(([file, { sum }]) => site.sums.get(file)?.sum === sum);
  if (same) known.set(site, diagnostics.filter(isError));
}

function isError({ severity }: Diagnostic): boolean {
  return severity === 'error';
}

/** What keeps a shop from being built; worked out once for all its pages. */
export function errorsOf(site: Site): readonly Diagnostic[] {
  const before = known.get(site);
  if (before) return before;
  const { shop, diagnostics, now, checked = now } = site;
  const today = checked.toISOString().slice(0, 10);
  const errors = check(shop, diagnostics, { today }).filter(isError);
  known.set(site, errors);
  return errors;
}

/** The checker's report of the errors of a shop; nothing when there are none. */
export function errorReport(site: Site): string | undefined {
  const errors = errorsOf(site);
  return errors.length > 0 ? reportText(errors, site.texts) : undefined;
}
