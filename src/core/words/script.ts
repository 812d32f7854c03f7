/** A sentence of a text that is to be laid on sound. */
export interface Sentence {
  readonly words: readonly string[];
  /** Line of the text where it begins, from 1. */
  readonly line: number;
}

/** A longer sentence is laid in parts, words: so much is spoken in one breath. (Common practice, no source.) */
const LONGEST = 24;

/**
 * The sentences of a text without times: a script, minutes, somebody's typing. What stands in brackets, such as
 * [tapping], is no speech and is left out. An empty line ends a sentence.
 */
export function readScript(text: string): Sentence[] {
  const sentences: Sentence[] = [];
  let words: string[] = [];
  let line = 1;
  const end = () => {
    for (let from = 0; from < words.length; ) {
      const until = from + LONGEST >= words.length ? words.length : breathBefore(words, from + LONGEST);
      sentences.push({ words: words.slice(from, until), line });
      from = until;
    }
    words = [];
  };
  text
    .replaceAll(/\[[^\]]*\]/g, (left) => left.replaceAll(/[^\n]/g, ' '))
    .split(/\r\n|\r|\n/)
    .forEach((written, i) => {
      const found = written.split(/\s+/).filter((word) => word !== '');
      if (found.length === 0) end();
      for (const word of found) {
        if (words.length === 0) line = i + 1;
        // A dash or a bullet that stands alone is not spoken.
        if (/[\p{L}\p{N}]/u.test(word)) words.push(word);
        else if (words.length > 0) words.push(`${words.pop()} ${word}`);
        if (/[.!?…]["'”’)]*$/u.test(word) && !/^(?:\p{L}\.)+$/u.test(word)) end();
      }
    });
  end();
  return sentences;
}

/** Where a breath is taken in the second half before a word: after the last comma, else right before it. */
function breathBefore(words: readonly string[], until: number): number {
  for (let i = until; i > until - LONGEST / 2; i--) if (/[,;:–—]$/.test(words[i - 1] ?? '')) return i;
  return until;
}
