import type { DayEvent, DaySheet } from '../../core/day/index.ts';
import type { FitInWords } from '../../core/fit/index.ts';
import { type Api, Refused } from '../cutting-room/api.ts';
import type { Trial } from './trial.ts';

/** What the page was handed when it was opened. */
export interface DayDeskData {
  readonly class: string;
  readonly token: string;
  readonly base: string;
}

export interface DayOpened {
  readonly sheet: DaySheet;
  readonly events: readonly DayEvent[];
  /** What the clock of the class shows, s from its planned start; nothing before it has begun. */
  readonly at: number | null;
}

/** What became of events. */
export interface DayKept {
  readonly at: number;
  /** What could not be written where it belongs, and why, in words. */
  readonly notices: readonly string[];
}

/** What keeps a class: the local server, or the page itself where there is none. */
export interface DayKeeper {
  /** Everything the class is run from, and what has happened so far. */
  open(): Promise<DayOpened>;
  /** What the clock of the class shows, s from its planned start; nothing before it has begun. */
  time(): Promise<number | null>;
  /** @throws when they are not written down; they are handed over again then */
  send(events: readonly DayEvent[]): Promise<DayKept>;
  /** The class begins anew; what was written down is laid aside. */
  afresh(): Promise<unknown>;
}

/** The local server, as the page of a class day reaches it. Whatever it refuses is thrown in words. */
export class DayServer implements DayKeeper {
  readonly #api: Api;
  readonly #class: string;

  constructor(api: Api, of: string) {
    this.#api = api;
    this.#class = of;
  }

  open(): Promise<DayOpened> {
    return this.#get('');
  }

  async time(): Promise<number | null> {
    return (await this.#get<{ at: number | null }>('time/')).at;
  }

  /** @throws when they are not on the server's disk */
  send(events: readonly DayEvent[]): Promise<DayKept> {
    return this.#post('events/', { events });
  }

  afresh(): Promise<unknown> {
    return this.#post('afresh/', {});
  }

  /** The class fitted with changes that nobody has written. @throws in words where one of them cannot be */
  tryOut(trial: Trial): Promise<FitInWords> {
    return this.#post('try/', trial);
  }

  /** Writes what was tried into the class file. */
  keepTrial(trial: Trial): Promise<{ kept: string }> {
    return this.#post('keep/', trial);
  }

  #get<T>(path: string): Promise<T> {
    return inWords(this.#api.get<T>(`day/${path}?class=${this.#class}`));
  }

  #post<T>(path: string, body: object): Promise<T> {
    return inWords(this.#api.post<T>(`day/${path}`, { class: this.#class, ...body }));
  }
}

async function inWords<T>(answer: Promise<T>): Promise<T> {
  try {
    return await answer;
  } catch (error) {
    if (error instanceof Refused && error.help !== '') throw new Error(`${error.message}; ${error.help}`);
    throw error;
  }
}
