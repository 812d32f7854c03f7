import type { KeptWords } from './keep-list.ts';

/** One thing that holds otherwise now than in a copy that was kept. */
export interface Changed {
  /** Such as `Rear axle nut, 2020 to 2026`. */
  readonly title: string;
  /** What the copy says; left out where it knows nothing of it. */
  readonly was?: string;
  /** What holds now; left out where the table no longer has it. */
  readonly now?: string;
  readonly critical?: true;
}

/**
 * What has changed between what a copy says and what the shop said later: values first that can hurt, corrections last.
 * A value that the copy does not show is told only where the lesson has come to cite it.
 */
export function whatChanged(copy: KeptWords, later: KeptWords): readonly Changed[] {
  const before = new Map(copy.values.map((value) => [value.path, value]));
  const after = new Map(later.values.map((value) => [value.path, value]));
  const values: Changed[] = [];
  for (const path of new Set([...before.keys(), ...after.keys()])) {
    const [was, now] = [before.get(path), after.get(path)];
    if (was?.text === now?.text) continue;
    const { title = '', whose } = now ?? was ?? {};
    values.push({
      title: whose ? `${title}, ${whose}` : title,
      ...(was && { was: was.text }),
      ...(now && { now: now.text }),
      ...((was?.critical || now?.critical) && { critical: true as const }),
    });
  }
  const known = new Set(copy.corrections.map(({ id, text }) => `${id} ${text}`));
  const corrections = later.corrections
    .filter(({ id, text }) => !known.has(`${id} ${text}`))
    .map(({ on, text }): Changed => ({ title: `Correction of ${on}`, now: text }));
  return [...values.toSorted((a, b) => Number(b.critical ?? false) - Number(a.critical ?? false)), ...corrections];
}
