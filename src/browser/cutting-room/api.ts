import { encodePath, type FileFacts } from '../../core/model/index.ts';
import { linesOf } from '../page/lines.ts';

/** What the page was handed when it was opened. */
export interface DeskData {
  readonly recording: string;
  readonly token: string;
  readonly base: string;
}

export interface Opened {
  readonly recordingFile: string;
  readonly lessonFiles: readonly string[];
  readonly texts: Readonly<Record<string, string>>;
  readonly facts: Readonly<Record<string, FileFacts>>;
  readonly machines: readonly string[];
  readonly today: string;
}

export interface Change {
  readonly file: string;
  readonly was: string | null;
  readonly text: string;
}

/** What is shown for as long as phones can get in. */
export interface OpenToPhones {
  /** With port, as in a web address. */
  readonly hosts: readonly string[];
  readonly phones: number;
  /** Milliseconds since 1970. */
  readonly until: number;
}

/** Work on footage that the local server does, as it tells of it. */
export interface Job {
  readonly id: number;
  readonly recording: string;
  readonly work: 'analyse' | 'align' | 'render' | 'burn';
  readonly state: 'waiting' | 'running' | 'done' | 'failed' | 'stopped';
  /** 0 … 1. */
  readonly share?: number;
  readonly now: string;
  readonly lines: readonly string[];
}

/** A programme that is rendered. */
export interface MadeProgramme {
  readonly burnt: boolean;
  readonly name: string;
  readonly captions?: string;
  /** Ticks. */
  readonly length: number;
  /** It still is what the content says. */
  readonly current: boolean;
}

/** What the local server said no to. */
export class Refused extends Error {
  readonly status: number;
  readonly help: string;
  readonly now: Readonly<Record<string, string | null>>;

  constructor(status: number, problem: string, help: string, now: Readonly<Record<string, string | null>>) {
    super(problem);
    this.name = 'Refused';
    this.status = status;
    this.help = help;
    this.now = now;
  }
}

/** The local server, as the page reaches it. */
export class Api {
  readonly #root: string;
  /** Its own address, which hands out the token of the present start. */
  readonly #page: string;
  #token: string;

  constructor({ base, token, page }: Pick<DeskData, 'base' | 'token'> & { readonly page: string }) {
    this.#page = page;
    this.#root = `${base}cutting-room/api/`;
    this.#token = token;
  }

  /**
   * @throws Refused when the server says no
   * @throws TypeError when it cannot be reached
   */
  async get<T>(path: string, signal?: AbortSignal): Promise<T> {
    return this.#ask<T>(path, { ...(signal ? { signal } : {}) });
  }

  async post<T>(path: string, body: unknown): Promise<T> {
    return this.#ask<T>(path, {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'content-type': 'application/json' },
    });
  }

  /**
   * Hands a file over as it is.
   *
   * @param hear how many bytes have gone
   * @throws Refused when the server says no
   * @throws TypeError when it cannot be reached, or the signal is aborted
   */
  upload<T>(path: string, file: Blob, hear: (done: number) => void, signal: AbortSignal): Promise<T> {
    return new Promise((done, failed) => {
      // Only this kind of request tells how far it is.
      const request = new XMLHttpRequest();
      request.open('POST', this.#root + path);
      request.setRequestHeader('x-liftside-token', this.#token);
      request.setRequestHeader('content-type', 'application/octet-stream');
      request.upload.onprogress = ({ loaded }) => hear(loaded);
      request.onerror = () => failed(new TypeError('the file could not be handed over'));
      request.onabort = request.onerror;
      request.onload = () => {
        const told = JSON.parse(request.responseText) as { problem?: string; help?: string };
        if (request.status < 300) done(told as T);
        else failed(new Refused(request.status, told.problem ?? request.statusText, told.help ?? '', {}));
      };
      signal.addEventListener('abort', () => request.abort(), { once: true });
      request.send(file);
    });
  }

  async bytes(path: string): Promise<ArrayBuffer> {
    const answer = await fetch(this.#root + path, { headers: { 'x-liftside-token': this.#token } });
    if (!answer.ok) throw new Refused(answer.status, answer.statusText, '', {});
    return answer.arrayBuffer();
  }

  /** Address of a file in the content folder, for an element that fetches it itself. */
  media(file: string): string {
    return `${this.#root}media/${encodePath(file)}?token=${this.#token}`;
  }

  /** Address of a file of a rendered programme, for an element that fetches it itself. */
  programmeFile(recording: string, burnt: boolean, name: string): string {
    const path = `${burnt ? 'burnt' : 'plain'}/${recording}/${encodeURIComponent(name)}`;
    return `${this.#root}programme-file/${path}?token=${this.#token}`;
  }

  /** Hands over each piece of news until the signal is aborted; connects again when the server comes back. */
  async news(signal: AbortSignal, hear: (news: unknown) => void, state: (there: boolean) => void): Promise<void> {
    while (!signal.aborted) {
      try {
        const listen = () => fetch(`${this.#root}events/`, { headers: { 'x-liftside-token': this.#token }, signal });
        let answer = await listen();
        if (answer.status === 401 && (await this.#renew())) answer = await listen();
        if (!answer.ok || !answer.body) throw new TypeError('no news to be had');
        state(true);
        for await (const lines of linesOf(answer.body)) for (const line of lines) hear(JSON.parse(line));
      } catch {
        if (signal.aborted) return;
      }
      state(false);
      await new Promise((done) => setTimeout(done, 1000));
    }
  }

  /** Liftside was started anew under this page: the page's own address hands out the token of the new start. */
  async #renew(): Promise<boolean> {
    const page = await fetch(this.#page);
    if (!page.ok) return false;
    const parts = new DOMParser().parseFromString(await page.text(), 'text/html');
    const data: unknown = JSON.parse(parts.querySelector('#desk')?.textContent ?? 'null');
    if (typeof data !== 'object' || data === null || !('token' in data) || typeof data.token !== 'string') return false;
    this.#token = data.token;
    return true;
  }

  async #ask<T>(path: string, init: RequestInit & { headers?: Record<string, string> }): Promise<T> {
    const send = () =>
      fetch(this.#root + path, { ...init, headers: { ...init.headers, 'x-liftside-token': this.#token } });
    let answer = await send();
    if (answer.status === 401 && (await this.#renew())) answer = await send();
    const value: unknown = await answer.json();
    if (answer.ok) return value as T;
    const told = value as { problem?: string; help?: string; now?: Record<string, string | null> };
    throw new Refused(answer.status, told.problem ?? answer.statusText, told.help ?? '', told.now ?? {});
  }
}
