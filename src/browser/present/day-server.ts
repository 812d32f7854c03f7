import type { DayEvent, DaySheet } from '../../core/day/index.ts';
import type { FitInWords } from '../../core/fit/index.ts';
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
  readonly at: number | null;
  readonly wall: number;
}

/** The local server, as the page of a class day reaches it. */
export class DayServer {
  readonly #data: DayDeskData;
  #token: string;

  constructor(data: DayDeskData) {
    this.#data = data;
    this.#token = data.token;
  }

  open(): Promise<DayOpened> {
    return this.#ask<DayOpened>(`?class=${this.#data.class}`);
  }

  async time(): Promise<number | null> {
    return (await this.#ask<{ at: number | null }>(`time/?class=${this.#data.class}`)).at;
  }

  /** @throws when they are not on the server's disk */
  send(events: readonly DayEvent[]): Promise<{ at: number; notices: readonly string[] }> {
    return this.#ask('events/', { class: this.#data.class, events });
  }

  afresh(): Promise<unknown> {
    return this.#ask('afresh/', { class: this.#data.class });
  }

  /** The class fitted with changes that nobody has written. @throws in words where one of them cannot be */
  tryOut(trial: Trial): Promise<FitInWords> {
    return this.#ask('try/', { class: this.#data.class, ...trial });
  }

  /** Writes what was tried into the class file. */
  keepTrial(trial: Trial): Promise<{ kept: string }> {
    return this.#ask('keep/', { class: this.#data.class, ...trial });
  }

  async #ask<T>(path: string, body?: unknown): Promise<T> {
    const send = () =>
      fetch(`${this.#data.base}cutting-room/api/day/${path}`, {
        headers: {
          'x-liftside-token': this.#token,
          ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        },
        ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
      });
    let answer = await send();
    if (answer.status === 401 && (await this.#renew())) answer = await send();
    const value: unknown = await answer.json();
    if (answer.ok) return value as T;
    const { problem = answer.statusText, help } = value as { problem?: string; help?: string };
    throw new Error(help === undefined ? problem : `${problem}; ${help}`);
  }

  /** Liftside was started anew under this page: the page's own address hands out the token of the new start. */
  async #renew(): Promise<boolean> {
    const page = await fetch(`${this.#data.base}classes/${this.#data.class}/present/`);
    if (!page.ok) return false;
    const parts = new DOMParser().parseFromString(await page.text(), 'text/html');
    const data: unknown = JSON.parse(parts.querySelector('#desk')?.textContent ?? 'null');
    if (typeof data !== 'object' || data === null || !('token' in data) || typeof data.token !== 'string') return false;
    this.#token = data.token;
    return true;
  }
}
