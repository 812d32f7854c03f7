/** A count with its noun: `1 caption`, `2 captions`. */
export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** What a parser or a program said first, without the excerpt or the stack that follows. */
export function firstLine(message: string): string {
  return /^.*/.exec(message)?.[0] ?? '';
}
