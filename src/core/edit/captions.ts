import type { Caption } from '../model/index.ts';
import { readCaptions } from '../read/index.ts';
import { unreadHeard } from '../words/index.ts';
import type { Session } from './session.ts';

/** The last text read: commands and pictures ask for the captions again and again, and few of them change any. */
let last: { readonly file: string; readonly text: string; readonly captions: readonly Caption[] } | undefined;

/** The caption file of the recording on the table and what it says; nothing where there is none. */
export function captionText({ desk, content, view }: Session): { file: string; text: string } | undefined {
  const file = view.recording?.captions?.file;
  if (file === undefined) return undefined;
  const facts = desk.facts(file);
  const text = content.texts.get(file) ?? (facts.state === 'text' ? facts.text : undefined);
  return text === undefined ? undefined : { file, text };
}

/** The captions of the recording, in the order of their file. */
export function captionsOf(session: Session): readonly Caption[] {
  const said = captionText(session);
  if (!said) return [];
  if (last?.file !== said.file || last.text !== said.text)
    last = { ...said, captions: readCaptions(said.file, said.text).captions };
  return last.captions;
}

/** Captions of the programme that a machine wrote and nobody has read, in order of time. */
export function unreadOf(session: Session): readonly Caption[] {
  return unreadHeard(captionsOf(session), session.view.kept).toSorted((a, b) => a.at.start - b.at.start);
}
