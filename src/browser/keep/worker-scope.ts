/** What of a service worker's own scope is used (Service Workers, W3C, 4): the library of types for pages has it not. */
export interface WorkerScope {
  readonly registration: ServiceWorkerRegistration;
  readonly caches: CacheStorage;
  readonly location: Location;
  readonly clients: {
    claim(): Promise<void>;
    matchAll(options: { readonly includeUncontrolled: boolean }): Promise<readonly { readonly id: string }[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', does: (event: WaitingEvent) => void): void;
  addEventListener(type: 'fetch', does: (event: AskedEvent) => void): void;
}

interface WaitingEvent extends Event {
  waitUntil(until: Promise<unknown>): void;
}

/** A page asks for something. */
export interface AskedEvent extends Event {
  readonly request: Request;
  /** The page that asks; empty where it is only being opened. */
  readonly clientId: string;
  /** The page that is being opened. */
  readonly resultingClientId: string;
  respondWith(answer: Promise<Response>): void;
}
