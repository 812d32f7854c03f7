/** Cache storage in memory, of so many entries at most: what is used of it, as browsers do it. */
export class MemoryCaches {
  readonly #caches = new Map<string, Map<string, Response>>();
  most: number;

  constructor(most = Number.POSITIVE_INFINITY) {
    this.most = most;
  }

  /** Addresses of entries with this word in them. */
  names(word: string): readonly string[] {
    return [...this.#caches.values()].flatMap((entries) => [...entries.keys()]).filter((name) => name.includes(word));
  }

  get storage(): CacheStorage {
    return {
      open: async (name: string) => {
        const entries = this.#caches.get(name) ?? new Map<string, Response>();
        this.#caches.set(name, entries);
        return {
          put: async (key: string, response: Response) => {
            if (!entries.has(key) && this.names('').length >= this.most)
              throw new DOMException('no room', 'QuotaExceededError');
            entries.set(key, response);
          },
          keys: async () => [...entries.keys()].map((url) => ({ url })),
          delete: async (key: string) => entries.delete(key),
        };
      },
      has: async (name: string) => this.#caches.has(name),
      match: async (key: string, { cacheName }: { cacheName: string }) =>
        this.#caches.get(cacheName)?.get(key)?.clone(),
      delete: async (name: string) => this.#caches.delete(name),
    } as unknown as CacheStorage;
  }
}
