import type { Shop } from '../model/index.ts';

/** More would slow the recogniser down, and have it hear them everywhere. (Common practice, no source.) */
const MOST = 400;
/** A name of more words is seldom said whole. */
const LONGEST = 4;

/**
 * What a shop calls its things, for a recogniser that should rather hear these than what sounds alike: titles of spec
 * rows, tools, parts and supplies, and the words of the trade.
 */
export function hotWordsOf({ machines, kit, words }: Pick<Shop, 'machines' | 'kit' | 'words'>): string[] {
  const named = [
    ...(words.words ?? []).map(({ say }) => say),
    ...[kit.tools, kit.parts, kit.supplies, kit.protective].flatMap((group) =>
      Object.values(group ?? {}).map(({ title }) => title),
    ),
    ...machines.flatMap(({ specs }) => specs.map(({ title }) => title)),
  ];
  const phrases = named
    .map((name) => name.split(/[,;:(–—]/u)[0] ?? '')
    .map((name) =>
      name
        .replaceAll(/[^\p{L}\p{M}'’ -]/gu, ' ')
        .replaceAll(/\s+/gu, ' ')
        .trim()
        .toLowerCase(),
    )
    .filter((name) => name.length > 2 && name.split(' ').length <= LONGEST);
  return [...new Set(phrases)].slice(0, MOST);
}

/**
 * Phrases as the library takes them, in the case that the model writes; those with a letter that it does not know are
 * left out.
 *
 * @param tokens text of the model's `tokens.txt`: a token and its number a line
 */
export function hotWordsLine(phrases: readonly string[], tokens: string): string {
  const known = tokensOf(tokens);
  const letters = new Set(known.join(''));
  const capitals = !known.some((token) => /^▁?\p{Ll}+$/u.test(token));
  return phrases
    .map((phrase) => (capitals ? phrase.toUpperCase() : phrase))
    .filter((phrase) => [...phrase].every((letter) => letter === ' ' || letters.has(letter)))
    .join('/');
}

/**
 * The vocabulary by which the library cuts hot words into tokens, for a model that came without one: each token as
 * likely as any other, so that the longest are taken. Nothing where words have no beginning of their own.
 */
export function vocabularyOf(tokens: string): string | undefined {
  const known = tokensOf(tokens);
  return known.some((token) => token.startsWith('▁'))
    ? `${known.map((token) => `${token}\t-1.0`).join('\n')}\n`
    : undefined;
}

function tokensOf(text: string): string[] {
  return text.split(/\r?\n/).flatMap((line) => /^(\S+)\s+\d+$/.exec(line.trim())?.[1] ?? []);
}
