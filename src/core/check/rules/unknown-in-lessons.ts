import { placeOf, type Shop } from '../../model/index.ts';
import { didYouMean, plural } from '../../read/index.ts';
import { nameFix } from '../remedy.ts';
import type { Finding } from '../rule.ts';

const FOLDERS = { machine: 'specs', recording: 'recordings' } as const;

/** What lessons name under a key and is not there: told once, at the first lesson that names it. */
export function* unknownInLessons(
  { lessons, broken }: Shop,
  key: keyof typeof FOLDERS,
  ids: readonly string[],
): Generator<Finding> {
  const told = new Set<string>();
  for (const lesson of lessons) {
    const id = lesson[key];
    if (ids.includes(id) || broken.has(id) || told.has(id)) continue;
    told.add(id);
    const others = lessons.filter((each) => each[key] === id).length - 1;
    const more = others > 0 ? `, which ${plural(others, 'lesson')} more ${others === 1 ? 'names' : 'name'} too` : '';
    yield {
      place: placeOf(lesson, key),
      message: `no ${key} "${id}"${more}`,
      help: didYouMean(id, ids, `write ${FOLDERS[key]}/${id}.yaml`),
      ...nameFix(id, ids, placeOf(lesson, key)),
    };
  }
}
