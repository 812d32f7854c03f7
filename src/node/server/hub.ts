import type { RoomWord } from '../../core/day/index.ts';
import type { FileFacts } from '../../core/model/index.ts';
import type { Press } from './class-relay.ts';
import type { Job } from './jobs.ts';

/** Something the page is told. */
export type News =
  | { readonly kind: 'file'; readonly file: string; readonly text: string | null }
  /** What is known of the files that recordings name, all of them. */
  | { readonly kind: 'facts'; readonly facts: Readonly<Record<string, FileFacts>> }
  /** Work on footage began, went on or ended. */
  | { readonly kind: 'jobs'; readonly jobs: readonly Job[] }
  | { readonly kind: 'shoot-log'; readonly lesson: string }
  /** Something has happened in a class. */
  | { readonly kind: 'day'; readonly class: string }
  /** A helper's phone was pressed. */
  | { readonly kind: 'press'; readonly class: string; readonly press: Press }
  /** A screen in the room on another machine says something of itself. */
  | { readonly kind: 'room-word'; readonly class: string; readonly word: RoomWord }
  /** Phones were let in, or shut out. */
  | { readonly kind: 'phones' };

/** Passes news on to every page that listens. */
export class Hub {
  readonly #listeners = new Set<(news: News) => void>();

  /** @returns ends the listening */
  listen(listener: (news: News) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  tell(news: News): void {
    for (const listener of this.#listeners) listener(news);
  }
}
