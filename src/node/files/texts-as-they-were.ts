import { readFileSync } from 'node:fs';
import { sumOf } from './file-sums.ts';
import { insideFolder } from './inside.ts';

/** A file is no longer what it was when this check began. */
export class ChangedMeanwhile extends Error {}

/**
 * Bytes of a file whose sum is known, read when they are wanted after all.
 *
 * @throws ChangedMeanwhile when they are no longer those
 */
export function bytesAsTheyWere(content: string, file: string, sum: string): Buffer {
  const inside = insideFolder(content, file);
  if (!inside.ok) throw new ChangedMeanwhile(file);
  try {
    const bytes = readFileSync(inside.path);
    if (sumOf(bytes) === sum) return bytes;
  } catch {
    // Gone: it has changed.
  }
  throw new ChangedMeanwhile(file);
}

/** Texts of a content folder, of which those that have not changed are read only when they are asked for. */
export class TextsAsTheyWere extends Map<string, string> {
  readonly #read: (file: string) => string;
  readonly #unread: Set<string>;

  constructor(texts: ReadonlyMap<string, string>, unread: ReadonlySet<string>, read: (file: string) => string) {
    super();
    this.#read = read;
    this.#unread = new Set(unread);
    for (const [file, text] of texts) super.set(file, text);
  }

  override get(file: string): string | undefined {
    if (this.#unread.delete(file)) super.set(file, this.#read(file));
    return super.get(file);
  }

  override *values(): MapIterator<string> {
    for (const [, text] of this.entries()) yield text;
  }

  override forEach(each: (text: string, file: string, texts: Map<string, string>) => void): void {
    for (const [file, text] of this.entries()) each(text, file, this);
  }

  override *entries(): MapIterator<[string, string]> {
    for (const file of this.keys()) yield [file, this.get(file) ?? ''];
  }

  override [Symbol.iterator](): MapIterator<[string, string]> {
    return this.entries();
  }
}
