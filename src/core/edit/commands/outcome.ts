import { type Content, type Session, type View, withContent } from '../session.ts';

/** What a command gives: the next session, or why not. */
export type Outcome =
  | {
      readonly session: Session;
      /** What was done, past tense; a change of content is undone by this name. */
      readonly label?: string;
      /** Said to who cannot see it. */
      readonly says?: string;
    }
  | { readonly refused: string };

/** An editing command: value to value. `words` is what a person typed where a command asks for it. */
export type EditCommand = (session: Session, words?: string) => Outcome;

export function move(session: Session, says?: string): Outcome {
  return says === undefined ? { session } : { session, says };
}

/** @param refused one line, small letter, no full stop: what is missing and what to do */
export function refuse(refused: string): Outcome {
  return { refused };
}

/**
 * A change of the content under a name.
 *
 * @param view the content as read, where the command has read it already: reading is most of what a command costs
 */
export function change(session: Session, content: Partial<Content>, label: string, view?: View): Outcome {
  const all = { ...session.content, ...content };
  return { session: view ? { ...session, content: all, view } : withContent(session, all), label, says: label };
}

/** A title as labels quote it. */
export function quoteTitle(title: string): string {
  return `“${title}”`;
}
