import type { Passage } from '../passages.ts';
import { type Session, viewOf } from '../session.ts';
import { change, type Outcome, refuse } from './outcome.ts';

/** What a lesson must say after an edit, apart from what was meant to change. */
interface Meant {
  /** Titles in order, as they should be. */
  readonly titles: readonly string[];
  /** Index of the passage chosen afterwards; the one chosen before when left out. */
  readonly choose?: number | undefined;
}

/**
 * Edits the lesson's text and reads it again before anything is kept: an edit that would change more than was
 * meant (a title that turns out to be markup, say) is refused and nothing happens.
 */
export function editLesson(
  session: Session,
  label: string,
  edit: (text: string) => string,
  meant: Meant = { titles: titlesOf(session) },
): Outcome {
  const { desk, content } = session;
  const file = desk.lessonFile;
  const before = content.texts.get(file ?? '');
  if (file === undefined || before === undefined) return refuse('no lesson is open; start one first');
  const mark = before.startsWith('\uFEFF') ? '\uFEFF' : '';
  const after = mark + edit(before.slice(mark.length));
  const texts = new Map(content.texts).set(file, after);
  const view = viewOf(desk, texts);
  const titles = view.passages.map(({ title }) => title);
  if (titles.length !== meant.titles.length || titles.some((title, i) => title !== meant.titles[i]))
    return refuse('the words would be read as markup; write them without special signs');
  const chosen = meant.choose === undefined ? content.chosen : view.passages[meant.choose]?.id;
  return change(session, { texts, chosen }, label, view);
}

export function titlesOf({ view }: Session): string[] {
  return view.passages.map(({ title }) => title);
}

/** Index of a passage in reading order. */
export function indexOf({ view }: Session, { id }: Passage): number {
  return view.passages.findIndex((passage) => passage.id === id);
}

/** A title the way a heading is read back. */
export function tidy(words: string): string {
  return words.trim().replace(/\s+/g, ' ');
}
