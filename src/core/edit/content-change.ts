import type { Content } from './session.ts';

/** The one stretch in which a text differs; the whole text where there was or is none. */
interface TextChange {
  readonly file: string;
  /** Where it begins, in both texts. */
  readonly at: number;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

type Beside = Omit<Content, 'texts'>;

/**
 * What leads from one state to the next and back, without the texts themselves: a caption file of two hours has
 * 225 000 letters, and each of its captions that somebody reads changes it.
 *
 *     before   |--- same ---|was |--- same ---|
 *     after    |--- same ---|is now|--- same ---|
 */
export interface ContentChange {
  readonly texts: readonly TextChange[];
  readonly before: Beside;
  readonly after: Beside;
}

/** What differs between two states. */
export function changeBetween(before: Content, after: Content): ContentChange {
  const { texts: was, ...besideBefore } = before;
  const { texts: is, ...besideAfter } = after;
  const files = was === is ? [] : [...new Set([...was.keys(), ...is.keys()])];
  return {
    texts: files.flatMap((file) => textChange(file, was.get(file), is.get(file)) ?? []),
    before: besideBefore,
    after: besideAfter,
  };
}

/** The state before a change. @param content the one after it */
export function withoutChange({ texts, before }: ContentChange, content: Content): Content {
  const back = texts.map(({ file, at, before: is, after: was }) => ({ file, at, was, is }));
  return { ...before, texts: exchanged(content.texts, back) };
}

/** The state after a change. @param content the one before it */
export function withChange({ texts, after }: ContentChange, content: Content): Content {
  const on = texts.map(({ file, at, before: was, after: is }) => ({ file, at, was, is }));
  return { ...after, texts: exchanged(content.texts, on) };
}

function textChange(file: string, before: string | undefined, after: string | undefined): TextChange | undefined {
  if (before === after) return undefined;
  if (before === undefined || after === undefined) return { file, at: 0, before, after };
  const shorter = Math.min(before.length, after.length);
  let at = 0;
  while (at < shorter && before.charCodeAt(at) === after.charCodeAt(at)) at++;
  let same = 0;
  while (
    same < shorter - at &&
    before.charCodeAt(before.length - 1 - same) === after.charCodeAt(after.length - 1 - same)
  )
    same++;
  const middle = (text: string) => ownCopy(text.slice(at, text.length - same));
  return { file, at, before: middle(before), after: middle(after) };
}

function exchanged(
  texts: Content['texts'],
  changes: readonly { file: string; at: number; was: string | undefined; is: string | undefined }[],
): Content['texts'] {
  if (changes.length === 0) return texts;
  const next = new Map(texts);
  for (const { file, at, was, is } of changes) {
    const text = was === undefined ? '' : (texts.get(file) ?? '');
    if (is === undefined) next.delete(file);
    else next.set(file, text.slice(0, at) + is + text.slice(at + (was?.length ?? 0)));
  }
  return next;
}

/**
 * The same letters in memory of their own: what is sliced from a text, or put together of such slices, keeps the whole
 * text in memory in the usual engines. JSON holds halves of surrogate pairs too.
 */
export function ownCopy(text: string): string {
  const copy: unknown = JSON.parse(JSON.stringify(text));
  return String(copy);
}
