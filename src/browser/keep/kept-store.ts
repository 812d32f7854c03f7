import { type KeepList, type KeptWords, type Piece, piecesOf } from '../../core/keep/index.ts';

/** What is known of a lesson that somebody wanted kept. */
export interface KeptLesson {
  /** The copy that is whole; nothing while the first one is being fetched. */
  readonly list?: KeepList;
  /** What is being fetched, or was when it stopped. */
  readonly next?: KeepList;
  /** When the site was last asked what holds, as ISO 8601 writes it. */
  readonly looked: string;
  /** What it said then. */
  readonly words: KeptWords;
}

/** The names of a client (a page in a tab) that was answered from a copy: which lesson, and which edition of it. */
export interface ClientOfCopy {
  readonly lesson: string;
  readonly edition: string;
}

/**
 * Copies of lessons in this browser's cache storage (Service Workers, W3C): pieces of files by their sums, each once,
 * and one record a lesson. A record is put there whole, so a reader sees the old copy or the new one and never parts of
 * both; pieces that no record names go.
 */
export class KeptStore {
  readonly #caches: CacheStorage;
  readonly #base: string;
  readonly #origin: string;

  /** @param base path of the site; several sites of one origin keep their own */
  constructor(caches: CacheStorage, base: string, origin: string) {
    this.#caches = caches;
    this.#base = base;
    this.#origin = origin;
  }

  get #cacheName(): string {
    return `kept ${this.#base}`;
  }

  #cache(): Promise<Cache> {
    return this.#caches.open(this.#cacheName);
  }

  /** Without opening it: for who keeps nothing, nothing is begun. */
  #find(name: string): Promise<Response | undefined> {
    return this.#caches.match(name, { cacheName: this.#cacheName });
  }

  async #names(of: 'lessons' | 'pieces' | 'clients'): Promise<string[]> {
    if (!(await this.#caches.has(this.#cacheName))) return [];
    const all = this.#name(of, '');
    return (await (await this.#cache()).keys()).map(({ url }) => url).filter((url) => url.startsWith(all));
  }

  #name(of: 'lessons' | 'pieces' | 'clients', id: string): string {
    return `${this.#origin}${this.#base}.kept/${of}/${encodeURIComponent(id)}`;
  }

  async lesson(id: string): Promise<KeptLesson | undefined> {
    return this.#read<KeptLesson>(this.#name('lessons', id));
  }

  async lessons(): Promise<readonly KeptLesson[]> {
    const kept = await Promise.all((await this.#names('lessons')).map((name) => this.#read<KeptLesson>(name)));
    return kept.filter((each) => each !== undefined);
  }

  /** @throws DOMException named QuotaExceededError where there is no room */
  async put(lesson: string, kept: KeptLesson): Promise<void> {
    await (await this.#cache()).put(this.#name('lessons', lesson), Response.json(kept));
  }

  async hasPiece({ sha256 }: Piece): Promise<boolean> {
    return (await this.#find(this.#name('pieces', sha256))) !== undefined;
  }

  /** @throws DOMException named QuotaExceededError where there is no room */
  async putPiece({ sha256 }: Piece, bytes: ArrayBuffer): Promise<void> {
    await (await this.#cache()).put(this.#name('pieces', sha256), new Response(bytes));
  }

  async piece({ sha256 }: Piece): Promise<ArrayBuffer | undefined> {
    return (await this.#find(this.#name('pieces', sha256)))?.arrayBuffer();
  }

  /** Lets go of pieces that no copy needs any more. */
  async tidy(): Promise<void> {
    const cache = await this.#cache();
    const lists = (await this.lessons()).flatMap(({ list, next }) => [list ?? [], next ?? []].flat());
    const needed = new Set([...piecesOf(lists).keys()].map((sha256) => this.#name('pieces', sha256)));
    for (const name of await this.#names('pieces')) if (!needed.has(name)) await cache.delete(name);
  }

  /** @returns true where nothing is kept any more */
  async remove(lesson: string): Promise<boolean> {
    const cache = await this.#cache();
    await cache.delete(this.#name('lessons', lesson));
    const none = (await this.lessons()).length === 0;
    if (none) await this.#caches.delete(this.#cacheName);
    else await this.tidy();
    return none;
  }

  async clientOf(id: string): Promise<ClientOfCopy | undefined> {
    return this.#read<ClientOfCopy>(this.#name('clients', id));
  }

  async putClient(id: string, client: ClientOfCopy): Promise<void> {
    await (await this.#cache()).put(this.#name('clients', id), Response.json(client));
  }

  /** Forgets pages that are no longer open. */
  async forgetClients(open: ReadonlySet<string>): Promise<void> {
    const cache = await this.#cache();
    const all = this.#name('clients', '');
    for (const name of await this.#names('clients'))
      if (!open.has(decodeURIComponent(name.slice(all.length)))) await cache.delete(name);
  }

  async #read<T>(name: string): Promise<T | undefined> {
    const found = await this.#find(name);
    return found && ((await found.json()) as T);
  }
}
