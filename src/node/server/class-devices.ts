import type { IncomingMessage, ServerResponse } from 'node:http';
import { roomWordSchema } from '../../core/day/index.ts';
import { jsonBody } from '../http/index.ts';
import { answerJson } from './answer-json.ts';
import { type ClassRelay, pressSchema } from './class-relay.ts';
import { SAFE_HEADERS } from './guard.ts';
import type { Hub } from './hub.ts';
import type { Pairing } from './pairings.ts';

const SMALL = 4096;
const STILL_THERE_MS = 10_000;

type ClassPairing = Extract<Pairing, { class: string }>;
type Handler = (request: IncomingMessage, response: ServerResponse, next: () => void) => unknown;

export interface ClassDevicesOptions {
  readonly hub: Hub;
  readonly relay: ClassRelay;
  /** Gives out footage of the site by its path there. */
  readonly footage: Handler;
}

/** Where the footage of the site lies, for the screen in the room. */
const FOOTAGE = /\/footage(?=\/)/;

/** What devices of a class may ask for once they are let in: each what it was let in for, and no more. */
export class ClassDevices {
  readonly #about: ClassDevicesOptions;

  constructor(about: ClassDevicesOptions) {
    this.#about = about;
  }

  /** @returns false where there is nothing of that name for this device */
  async answer(
    asked: string,
    device: ClassPairing,
    request: IncomingMessage,
    response: ServerResponse,
  ): Promise<boolean> {
    const [method, path = ''] = asked.split(' ');
    const at = FOOTAGE.exec(path);
    if (asked === 'GET /now/') this.#now(device, response);
    else if (asked === 'POST /press/' && device.as === 'lead') await this.#press(device, request, response);
    else if (asked === 'POST /word/' && device.as === 'room') await this.#word(device, request, response);
    else if ((method === 'GET' || method === 'HEAD') && at && device.as === 'room') {
      request.url = path.slice(at.index + at[0].length);
      response.setHeaders(SAFE_HEADERS);
      await this.#about.footage(request, response, () =>
        answerJson(response, 404, { problem: 'there is no such footage' }),
      );
    } else return false;
    return true;
  }

  /** What is shown, now and whenever it changes, one JSON value a line. */
  #now({ class: of, as }: ClassPairing, response: ServerResponse): void {
    const { relay } = this.#about;
    response.setHeaders(SAFE_HEADERS);
    response.writeHead(200, { 'content-type': 'application/x-ndjson; charset=utf-8', 'x-accel-buffering': 'no' });
    let films: unknown;
    const tell = () => {
      const shown = relay.shown(of);
      if (!shown) return response.write('\n');
      if (as === 'lead') return response.write(`${JSON.stringify({ lead: shown.lead })}\n`);
      const more = shown.films === films ? {} : { films: shown.films };
      films = shown.films;
      return response.write(`${JSON.stringify({ room: shown.room, ...more })}\n`);
    };
    tell();
    const end = relay.listen((changed) => changed === of && tell());
    const pulse = setInterval(() => response.write('\n'), STILL_THERE_MS);
    response.on('close', () => {
      clearInterval(pulse);
      end();
    });
  }

  async #press({ class: of }: ClassPairing, request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, SMALL);
    const read = 'problem' in body ? undefined : pressSchema.safeParse(body.value);
    if (!read?.success) return answerJson(response, 400, { problem: 'the press is not understood' });
    this.#about.hub.tell({ kind: 'press', class: of, press: read.data });
    return answerJson(response, 200, { pressed: read.data.id });
  }

  async #word({ class: of }: ClassPairing, request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, SMALL);
    const read = 'problem' in body ? undefined : roomWordSchema.safeParse(body.value);
    if (!read?.success) return answerJson(response, 400, { problem: 'the word is not understood' });
    this.#about.hub.tell({ kind: 'room-word', class: of, word: read.data });
    return answerJson(response, 200, { heard: true });
  }
}
