import { join } from 'node:path';
import type { Shop } from '../../core/model/index.ts';
import { addressFrom, type Contents, SUMS_FILE } from '../../core/pack/index.ts';
import { jobSheet } from '../../core/pages/index.ts';
import {
  askedOf,
  type Course,
  cmi5Structure,
  MOST_SUSPENDED,
  nothingDone,
  progressText,
  scormManifest,
} from '../../core/school/index.ts';
import { OutsideFailure } from '../failure.ts';
import { entryOf, type PackEntry } from './entry.ts';
import { pageOf, type SchoolScript } from './pages.ts';
import { uuidOf } from './uuid-of.ts';

/** Open standards by which a school's system records what is done of a lesson. */
export type SchoolFormat = 'scorm12' | 'cmi5';

/** @param home absolute path of Liftside itself */
export function schoolScript(home: string, format: SchoolFormat): SchoolScript {
  return { script: join(home, 'src/browser/school', `${format}.ts`), anywhere: format === 'cmi5' };
}

/**
 * What a school's system reads first: `imsmanifest.xml` or `cmi5.xml`.
 *
 * @throws OutsideFailure when a lesson has more steps than SCORM 1.2 can keep
 */
export function schoolManifest(
  format: SchoolFormat,
  contents: Contents,
  shop: Shop,
  entries: readonly PackEntry[],
): PackEntry {
  const course = courseOf(contents, shop);
  if (format === 'cmi5') return entryOf('cmi5.xml', cmi5Structure(course));
  for (const lesson of contents.lessons) {
    const asked = askedOf(
      jobSheet(
        shop,
        lesson,
        shop.machines.find(({ id }) => id === lesson.machine),
      ),
      undefined,
    );
    if (progressText(asked, { ...nothingDone(asked), at: 99_999 }).length > MOST_SUSPENDED)
      throw new OutsideFailure(
        `${lesson.id} has ${asked.steps.length} steps, more than SCORM 1.2 can keep the state of`,
        'make two lessons of it, or pack it --to cmi5, which knows no such limit',
      );
  }
  const files = [...entries.map(({ path }) => path), SUMS_FILE].toSorted();
  return entryOf('imsmanifest.xml', scormManifest(course, files));
}

function courseOf({ kind, id, title, lessons }: Contents, shop: Shop): Course {
  const { info } = shop;
  const nowhere = `By ${info.name}.`;
  const iri = (path: string) =>
    info.site === undefined ? uuidOf(`${info.name} ${path}`) : new URL(path, info.site).href;
  return {
    identifier: `liftside.${kind}.${id}`,
    iri: iri(`${kind === 'class' ? 'classes' : 'lessons'}/${id}/#course`),
    title,
    description:
      lessons
        .map(({ summary }) => summary ?? '')
        .join(' ')
        .trim() || nowhere,
    language: info.language ?? 'en',
    lessons: lessons.map((lesson) => ({
      id: lesson.id,
      iri: iri(`lessons/${lesson.id}/`),
      title: lesson.title,
      description: lesson.summary ?? nowhere,
      page: addressFrom('cmi5.xml', pageOf(lesson.id)),
    })),
  };
}
