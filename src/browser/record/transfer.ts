import { t } from '../page/words.ts';
import { recordSchema, type ServiceRecord } from './schema.ts';

/** A record as a file. */
export function recordFile(record: ServiceRecord): string {
  return `${JSON.stringify(record, null, 2)}\n`;
}

export type FileRead =
  | { readonly ok: true; readonly record: ServiceRecord }
  | { readonly ok: false; readonly problem: string };

/** A record from a file that somebody chose; says in words why it is none. */
export function readRecordFile(text: string): FileRead {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return {
      ok: false,
      problem: t('This file is not a service record: it cannot be read at all. Nothing was changed.'),
    };
  }
  const { format, version } = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>;
  if (format !== 'service record')
    return { ok: false, problem: t('This file is something else, not a service record. Nothing was changed.') };
  if (typeof version === 'number' && version > 1)
    return {
      ok: false,
      problem: t(
        'This file was saved by a newer page than this one. Reload the page and try again; nothing was changed.',
      ),
    };
  const read = recordSchema.safeParse(value);
  if (read.success) return { ok: true, record: read.data };
  const [issue] = read.error.issues;
  return {
    ok: false,
    problem: t('This file is damaged at {place}. Nothing was changed.', {
      place: issue?.path.join(' › ') || t('its beginning'),
    }),
  };
}

/**
 * Two records as one: of a job or interval that both know, what was changed last. So a file may be taken in twice, and
 * on several devices, in any order.
 */
export function mergeRecords(one: ServiceRecord, other: ServiceRecord): ServiceRecord {
  return {
    ...one,
    jobs: newest(one.jobs, other.jobs, ({ id }) => id),
    intervals: newest(one.intervals, other.intervals, ({ row }) => row),
  };
}

function newest<T extends { readonly changed: string }>(
  one: readonly T[],
  other: readonly T[],
  key: (each: T) => string,
): T[] {
  const all = new Map(one.map((each) => [key(each), each]));
  for (const each of other) {
    const known = all.get(key(each));
    if (!known || known.changed < each.changed) all.set(key(each), each);
  }
  return [...all.values()];
}
