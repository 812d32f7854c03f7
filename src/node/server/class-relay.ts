import { z } from 'zod';

/** Presses that a helper's phone may send: what a clicker has, and nothing that needs the page itself. */
export const PRESSES = [
  'next',
  'back',
  'toggle',
  'again',
  'slower',
  'faster',
  'dark',
  'way-1',
  'way-2',
  'way-3',
  'undo',
  'one-more',
  'one-fewer',
] as const;

/** A press on a phone. The one who leads acts on each id once. */
export const pressSchema = z.strictObject({ id: z.string().min(8).max(80), does: z.enum(PRESSES) });
export type Press = z.infer<typeof pressSchema>;

/** What the window of the one who leads shows to others: made there, and handed on as it is. */
export const shownSchema = z.strictObject({ lead: z.unknown(), room: z.unknown(), films: z.unknown().optional() });
export type Shown = z.infer<typeof shownSchema>;

/**
 * Between the window of the one who leads and devices on the shop's network. It keeps what was shown last, so that a
 * device that comes late is right at once, and nothing else: what happens is written down by the window alone.
 */
export class ClassRelay {
  readonly #shown = new Map<string, Shown>();
  readonly #listeners = new Set<(of: string) => void>();

  /** Films stay as they were where they are left out: they are long, and the same all day. */
  show(of: string, shown: Shown): void {
    const films = shown.films ?? this.#shown.get(of)?.films;
    this.#shown.set(of, { ...shown, films });
    for (const listener of this.#listeners) listener(of);
  }

  shown(of: string): Shown | undefined {
    return this.#shown.get(of);
  }

  /** @returns ends the listening */
  listen(listener: (of: string) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
}
