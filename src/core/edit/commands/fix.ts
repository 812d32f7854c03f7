import type { Fix } from '../../model/index.ts';
import { applySplices } from '../../write/index.ts';
import type { Session } from '../session.ts';
import { viewOf } from '../session.ts';
import { change, type EditCommand, refuse } from './outcome.ts';

/** True where every file that a remedy changes is on the table. */
export function canApply({ edits }: Fix, { desk }: Session): boolean {
  return edits.every(({ place: { file } }) => file === desk.recordingFile || file === desk.lessonFile);
}

/**
 * Does what the check says mends a finding: one change, undone at once.
 *
 * @param checked the texts that the check read: what was changed since is not written over
 */
export const applyFix =
  (fix: Fix, checked: ReadonlyMap<string, string>): EditCommand =>
  (session) => {
    const { desk, content } = session;
    if (!canApply(fix, session)) return refuse('the fix is in a file that is not open here');
    const texts = new Map(content.texts);
    for (const file of new Set(fix.edits.map(({ place }) => place.file))) {
      const before = content.texts.get(file);
      if (before === undefined || before !== checked.get(file))
        return refuse('the check is still reading the last change; press again');
      const mark = before.startsWith('\uFEFF') ? '\uFEFF' : '';
      const splices = fix.edits
        .filter(({ place }) => place.file === file)
        .map(({ place, text }) => ({ from: place.start.offset, to: place.end.offset, text }));
      texts.set(file, mark + applySplices(before.slice(mark.length), splices));
    }
    const view = viewOf(desk, texts);
    if ((session.view.recording && !view.recording) || (session.view.lesson && !view.lesson))
      return refuse('the file could not be read after that; mend it by hand');
    return change(session, { texts }, `mended: ${fix.title}`, view);
  };
