import { lineEnd } from '../../write/index.ts';
import { viewOf } from '../session.ts';
import { change, type EditCommand, refuse } from './outcome.ts';

/**
 * Writes a whole file of the desk, as a person types it. Refused while it could not be read like that: the picture, the
 * steps and the cuts on the page come from it.
 */
export const writeFile =
  (file: string): EditCommand =>
  (session, words = '') => {
    const { desk, content, view: seen } = session;
    const before = content.texts.get(file);
    if (before === undefined || (file !== desk.recordingFile && file !== desk.lessonFile))
      return refuse(`${file} is not open here`);
    const mark = before.startsWith('\uFEFF') ? '\uFEFF' : '';
    const after = mark + words.replace(/^\uFEFF/, '').replace(/\r?\n/g, lineEnd(before));
    if (after === before) return { session };
    const texts = new Map(content.texts).set(file, after);
    const view = viewOf(desk, texts);
    if ((seen.recording && !view.recording) || (seen.lesson && !view.lesson))
      return refuse(`${file} could not be read like this`);
    const chosen = view.passages.some(({ id }) => id === content.chosen) ? content.chosen : view.passages[0]?.id;
    return change(session, { texts, chosen }, `wrote ${file} by hand`, view);
  };
