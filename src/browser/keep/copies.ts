import {
  bytesOf,
  KEPT_SCRIPT,
  type KeepList,
  keepListPath,
  piecesOf,
  readKeepList,
  sizeInWords,
} from '../../core/keep/index.ts';
import { locale, t } from '../page/words.ts';
import { KeepingStopped, keepPieces, missingPieces } from './keep-pieces.ts';
import { type KeptLesson, KeptStore } from './kept-store.ts';

/** The copies in this browser, as pages see them. */
export class Copies {
  readonly store: KeptStore;
  readonly #site: string;

  private constructor(base: string) {
    this.#site = new URL(base, location.href).href;
    this.store = new KeptStore(caches, base, location.origin);
  }

  /** The copies of the site with this base; or in words why nothing can be kept here. */
  static here(base = '/'): Copies | string {
    if (location.protocol === 'file:') return t('This page was opened from a folder: it is kept already.');
    if ('serviceWorker' in navigator && 'caches' in globalThis) return new Copies(base);
    return globalThis.isSecureContext
      ? t('This browser cannot keep pages.')
      : t('Pages can be kept only from an address that begins with https.');
  }

  /** What the site says now; nothing where it cannot be reached, or has no list of that lesson. */
  async look(lesson: string): Promise<KeepList | undefined> {
    try {
      const answer = await fetch(new URL(keepListPath(lesson), this.#site), { cache: 'no-store' });
      return answer.ok ? readKeepList(await answer.json()) : undefined;
    } catch {
      return undefined;
    }
  }

  /** Writes down what the site says now of a lesson that is kept: shown from then on, also over an older copy. */
  async noteLook(lesson: string, now: KeepList): Promise<KeptLesson | undefined> {
    const kept = await this.store.lesson(lesson);
    if (!kept) return undefined;
    const noted = { ...kept, looked: new Date().toISOString(), words: wordsOf(now) };
    await this.store.put(lesson, noted);
    return noted;
  }

  /**
   * Keeps a lesson, or brings a copy up to date. The earlier copy is good until the new one is whole.
   *
   * @throws KeepingStopped in words; what has arrived stays, and the next try goes on from there
   */
  async keep(first: KeepList, signal: AbortSignal, progress: (bytes: number) => void): Promise<void> {
    await navigator.serviceWorker.register(new URL(KEPT_SCRIPT, this.#site), { scope: new URL(this.#site).pathname });
    // Asked, a browser may promise not to clear it by itself; without the promise it is kept all the same. Some ask the
    // person in turn, and answer when they do.
    void navigator.storage?.persist?.().catch(() => false);
    let list = first;
    for (let tries = 1; ; tries++) {
      const { lesson } = list;
      const kept = await this.store.lesson(lesson);
      const looked = new Date().toISOString();
      await this.#put(lesson, { ...(kept?.list && { list: kept.list }), next: list, looked, words: wordsOf(list) });
      await this.#room(list);
      try {
        await keepPieces({ list, store: this.store, site: this.#site, signal, progress });
      } catch (error) {
        const now = error instanceof KeepingStopped && error.changed && tries < 3 ? await this.look(lesson) : undefined;
        if (!now) throw error;
        list = now;
        continue;
      }
      await this.#put(lesson, { list, looked, words: wordsOf(list) });
      await this.store.tidy();
      return;
    }
  }

  async remove(lesson: string): Promise<void> {
    if (!(await this.store.remove(lesson))) return;
    const registration = await navigator.serviceWorker.getRegistration(this.#site);
    await registration?.unregister();
  }

  /** Bytes that a copy still lacks, and all it needs. */
  async sizes(list: KeepList): Promise<{ readonly missing: number; readonly all: number }> {
    return { missing: bytesOf(await missingPieces(list, this.store)), all: bytesOf(piecesOf([list]).values()) };
  }

  /** @throws KeepingStopped where the browser says beforehand that there is no room */
  async #room(list: KeepList): Promise<void> {
    const { missing } = await this.sizes(list);
    const { quota, usage = 0 } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
    if (quota === undefined || quota - usage >= missing) return;
    throw new KeepingStopped(
      t('{size} are needed, and this browser has room for {room}', {
        size: sizeInWords(missing, locale),
        room: sizeInWords(Math.max(0, quota - usage), locale),
      }),
      t('remove another kept lesson, or free some space on this device, then go on'),
    );
  }

  async #put(lesson: string, kept: KeptLesson): Promise<void> {
    try {
      await this.store.put(lesson, kept);
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
      throw new KeepingStopped(t('this device has no room left'), t('free some space, then try again'));
    }
  }
}

const wordsOf = ({ values, corrections }: KeepList) => ({ values, corrections });
