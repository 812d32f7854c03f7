import { randomBytes, timingSafeEqual } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { z } from 'zod';
import { jsonBody } from '../http/index.ts';
import { SAFE_HEADERS } from './guard.ts';
import type { Hub } from './hub.ts';
import { phonePage } from './phone-page.ts';
import { addTaps, readTaps, tapSchema } from './shoot-log-file.ts';

/** One line of the shot list. */
export interface Shot {
  readonly id: string;
  readonly kind: 'chapter' | 'step';
  readonly title: string;
}

/** A lesson as the phone shows it. */
export interface ShotList {
  readonly lesson: string;
  readonly title: string;
  readonly shots: readonly Shot[];
}

/** How a phone gets in. */
export interface Invitation {
  /** To be shown as a QR code; the token behind `#` is good for one phone, once. */
  readonly url: string;
  readonly minutes: number;
}

const INVITATION_MINUTES = 10;
const TAPS_LIMIT = 256 * 1024;
const taps = z.strictObject({ taps: z.array(tapSchema).max(500) });

/**
 * The shoot log's own small server. It is there only from the moment somebody asks for it until it is closed, is the
 * only thing of the cutting room that other machines can reach, and knows nothing but one lesson's shot list and log.
 */
export class PhoneDesk {
  readonly #content: string;
  readonly #hub: Hub;
  #server: Server | undefined;
  #list: ShotList | undefined;
  #invitation: { token: string; until: number } | undefined;
  readonly #phones = new Set<string>();

  constructor(content: string, hub: Hub) {
    this.#content = content;
    this.#hub = hub;
  }

  /**
   * Opens the server where it is not open yet, and invites one more phone.
   *
   * @param address of this machine on the shop's network
   * @param now milliseconds
   */
  async invite(list: ShotList, address: string, now: number): Promise<Invitation> {
    this.#list = list;
    this.#server ??= await this.#listen(address);
    const bound = this.#server.address();
    const port = typeof bound === 'object' && bound ? bound.port : 0;
    const token = randomBytes(16).toString('base64url');
    this.#invitation = { token, until: now + INVITATION_MINUTES * 60_000 };
    return { url: `http://${address}:${port}/#${token}`, minutes: INVITATION_MINUTES };
  }

  get isOpen(): boolean {
    return this.#server !== undefined;
  }

  async close(): Promise<void> {
    const server = this.#server;
    this.#server = undefined;
    this.#invitation = undefined;
    this.#phones.clear();
    if (!server) return;
    await new Promise<void>((done) => {
      server.close(() => done());
      server.closeAllConnections();
    });
  }

  async #listen(address: string): Promise<Server> {
    const server = createServer((request, response) => void this.#answer(request, response, address));
    await new Promise<void>((done, failed) => {
      server.once('error', failed);
      server.listen(0, address, done);
    });
    return server;
  }

  async #answer(request: IncomingMessage, response: ServerResponse, address: string): Promise<void> {
    const { host = '', origin } = request.headers;
    const own = `${address}:${request.socket.localPort ?? 0}`;
    const foreign = host !== own || (origin !== undefined && origin !== `http://${own}`);
    if (foreign) return json(response, 403, { problem: 'the request comes from another site' });
    const path = `${request.method} ${(request.url ?? '').split('?')[0]}`;
    try {
      if (path === 'GET /') return phonePage(response);
      if (path === 'POST /pair/') return await this.#pair(request, response);
      if (!this.#knows(request)) return json(response, 401, { problem: 'this phone is not paired; scan a new code' });
      if (path === 'GET /list/') return json(response, 200, { ...this.#list, taps: await this.#taps() });
      if (path === 'POST /taps/') return await this.#take(request, response);
      json(response, 404, { problem: 'there is nothing at this address' });
    } catch (error) {
      json(response, 500, { problem: error instanceof Error ? error.message : String(error) });
    }
  }

  /** One code lets one phone in: whoever comes second with it, or too late, stays out. */
  async #pair(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, 1024);
    if ('problem' in body) return json(response, body.status, { problem: body.problem });
    const given = z.strictObject({ token: z.string().max(100) }).safeParse(body.value);
    const invitation = this.#invitation;
    const right =
      given.success && invitation && Date.now() < invitation.until && same(given.data.token, invitation.token);
    if (!right) return json(response, 401, { problem: 'this code was used already or is too old; show a new one' });
    this.#invitation = undefined;
    const phone = randomBytes(32).toString('base64url');
    this.#phones.add(phone);
    json(response, 200, { phone });
  }

  async #take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, TAPS_LIMIT);
    if ('problem' in body) return json(response, body.status, { problem: body.problem });
    const read = taps.safeParse(body.value);
    if (!read.success || !this.#list) return json(response, 400, { problem: 'the taps are not understood' });
    await addTaps(this.#content, this.#list.lesson, read.data.taps);
    this.#hub.tell({ kind: 'shoot-log', lesson: this.#list.lesson });
    json(response, 200, { kept: read.data.taps.map(({ id }) => id) });
  }

  #taps() {
    return this.#list ? readTaps(this.#content, this.#list.lesson) : [];
  }

  #knows(request: IncomingMessage): boolean {
    const given = request.headers['x-liftside-phone'];
    return typeof given === 'string' && [...this.#phones].some((phone) => same(given, phone));
  }
}

function same(given: string, secret: string): boolean {
  const a = Buffer.from(given);
  const b = Buffer.from(secret);
  return a.length === b.length && timingSafeEqual(a, b);
}

function json(response: ServerResponse, status: number, value: unknown): void {
  for (const [name, header] of Object.entries(SAFE_HEADERS)) response.setHeader(name, header);
  response.writeHead(status, { 'content-type': 'application/json; charset=utf-8' });
  response.end(JSON.stringify(value));
}
