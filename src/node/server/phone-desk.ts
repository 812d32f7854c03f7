import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { z } from 'zod';
import { errorCode } from '../files/index.ts';
import { closeServer, jsonBody, readTarget } from '../http/index.ts';
import type { SiteLocale } from '../site/locales.ts';
import { answerJson } from './answer-json.ts';
import type { ClassDevices } from './class-devices.ts';
import type { Hub } from './hub.ts';
import { hostOf } from './lan-addresses.ts';
import {
  forgetOpening,
  hashOf,
  loadOpening,
  type Opening,
  type Pairing,
  type Purpose,
  sameToken,
  saveOpening,
} from './pairings.ts';
import { classPage, phonePage, pictureReader } from './phone-page.ts';
import { addTaps, readTaps, tapsSchema } from './shoot-log-file.ts';

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

/** What the screen shows for as long as phones can get in. */
export interface OpenToPhones {
  /** With port, as in a web address. */
  readonly hosts: readonly string[];
  readonly phones: number;
  /** Milliseconds since 1970. */
  readonly until: number;
}

export interface DeskOptions {
  readonly content: string;
  readonly hub: Hub;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** The language of the shop, for the screen that the room sees. */
  readonly locale: () => Promise<SiteLocale>;
  /** The shot list of a lesson as it is written now; nothing where the lesson is gone. */
  readonly listOf: (lesson: string) => Promise<ShotList | undefined>;
  /** What devices of a class may ask for. */
  readonly devices: ClassDevices;
}

/** How long a code is good for. */
export const INVITATION_MS = 10 * 60_000;
/** How long phones stay let in after the last code was shown: a day of shooting. */
export const OPEN_MS = 12 * 3_600_000;
/** The device of a room, for what its film elements fetch. */
const COOKIE = 'liftside-device';
const TAPS_LIMIT = 256 * 1024;

/**
 * The shoot log's own small server. It is there only from the moment somebody asks for it until it is closed, or until
 * a day of shooting is over; it is the only thing of the cutting room that other machines can reach, and knows nothing
 * but shot lists and logs. A restart in between keeps port and phones: a phone cannot follow a page to another address.
 */
export class PhoneDesk {
  readonly #about: DeskOptions;
  #servers: Server[] = [];
  #opening: Opening | undefined;
  #invitation: { hash: string; purpose: Purpose; until: number } | undefined;
  #end: NodeJS.Timeout | undefined;

  constructor(about: DeskOptions) {
    this.#about = about;
  }

  /**
   * Opens the server where it is not open yet, and invites one more phone.
   *
   * @param addresses of this machine on the shop's network, the one for the code first
   * @throws when none of them can be listened on
   */
  async invite(purpose: Purpose, addresses: readonly string[]): Promise<Invitation> {
    const now = this.#about.now();
    if (this.#opening && addresses.some((address) => !this.#opening?.addresses.includes(address))) await this.#shut();
    if (this.#servers.length === 0)
      await this.#open(addresses, this.#opening ?? (await loadOpening(this.#about.content)));
    const { port = 0, phones = [], addresses: bound = [] } = this.#opening ?? {};
    const address = addresses.find((each) => bound.includes(each)) ?? bound[0] ?? '';
    const token = randomBytes(16).toString('base64url');
    this.#invitation = { hash: hashOf(token), purpose, until: now + INVITATION_MS };
    await this.#keep({ port, addresses: bound, until: now + OPEN_MS, phones: phones.filter((p) => now < p.until) });
    const page = 'lesson' in purpose ? '' : `${purpose.as}/`;
    return { url: `http://${hostOf(address)}:${port}/${page}#${token}`, minutes: INVITATION_MS / 60_000 };
  }

  /**
   * After a restart: opens again what was open, for the phones that were let in, at the same port. Only at an address
   * that it was opened at: in another network nobody has asked for it.
   *
   * @returns true where it is open now
   */
  async resume(addresses: readonly string[]): Promise<boolean> {
    const kept = await loadOpening(this.#about.content);
    if (!kept || this.#about.now() >= kept.until) return false;
    const still = kept.addresses.filter((address) => addresses.includes(address));
    if (still.length === 0) return false;
    return this.#open(still, kept).then(
      () => true,
      () => false,
    );
  }

  /** What the screen has to show; nothing when no phone can get in. */
  get open(): OpenToPhones | undefined {
    if (!this.#opening || this.#servers.length === 0) return undefined;
    const { addresses, port, until, phones } = this.#opening;
    const now = this.#about.now();
    return {
      hosts: addresses.map((address) => `${hostOf(address)}:${port}`),
      phones: phones.filter((phone) => now < phone.until).length,
      until,
    };
  }

  /** Ends it for everybody: a phone needs a new code. */
  async close(): Promise<void> {
    const { content, hub } = this.#about;
    const port = this.#opening?.port;
    await this.#shut();
    this.#opening = undefined;
    // The port stays: a page that is opened to again at its old address hears there that it needs a new code.
    if (port === undefined) await forgetOpening(content);
    else await saveOpening(content, { port, addresses: [], until: 0, phones: [] }).catch(() => forgetOpening(content));
    hub.tell({ kind: 'phones' });
  }

  /** Ends it with the program; a restart goes on. */
  async stop(): Promise<void> {
    await this.#shut();
  }

  async #shut(): Promise<void> {
    clearTimeout(this.#end);
    this.#invitation = undefined;
    const servers = this.#servers;
    this.#servers = [];
    await Promise.all(servers.map(closeServer));
  }

  async #open(addresses: readonly string[], kept: Opening | undefined): Promise<void> {
    const servers: Server[] = [];
    const bound: string[] = [];
    let port = kept?.port ?? 0;
    let refused: unknown = new Error('this machine is in no local network');
    for (const address of addresses) {
      // The first one decides the port: the kept one where nobody else has it now.
      const tries = bound.length === 0 && port !== 0 ? [port, 0] : [port];
      for (const each of tries) {
        const server = await this.#listen(address, each).catch((error: unknown) => {
          refused = error;
          return undefined;
        });
        if (!server) continue;
        const at = server.address();
        port = typeof at === 'object' && at ? at.port : port;
        servers.push(server);
        bound.push(address);
        break;
      }
    }
    if (servers.length === 0) throw refused;
    this.#servers = servers;
    const now = this.#about.now();
    await this.#keep({
      port,
      addresses: bound,
      until: kept && now < kept.until ? kept.until : now + OPEN_MS,
      phones: (kept?.phones ?? []).filter((phone) => now < phone.until),
    });
  }

  #listen(address: string, port: number): Promise<Server> {
    const server = createServer((request, response) => void this.#answer(request, response));
    return new Promise((done, failed) => {
      server.once('error', failed);
      server.listen(port, address, () => done(server));
    });
  }

  async #keep(opening: Opening): Promise<void> {
    this.#opening = opening;
    clearTimeout(this.#end);
    this.#end = setTimeout(() => void this.close(), Math.max(0, opening.until - this.#about.now()));
    this.#end.unref();
    // Where it cannot be kept, only a restart needs new codes.
    await saveOpening(this.#about.content, opening).catch(() => undefined);
    this.#about.hub.tell({ kind: 'phones' });
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    try {
      await this.#route(request, response);
    } catch (error) {
      const code = errorCode(error);
      const problem =
        code === 'ENOSPC' || code === 'EDQUOT'
          ? 'the disk of the cutting room is full'
          : `the cutting room could not keep it (${error instanceof Error ? error.message : String(error)})`;
      if (response.headersSent) response.destroy();
      else answerJson(response, 507, { problem });
    }
  }

  async #route(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const target = readTarget(request.url);
    if (!target) return answerJson(response, 400, { problem: 'the address is not understood' });
    const { host = '', origin } = request.headers;
    const own = this.open?.hosts.includes(host) && (origin === undefined || origin === `http://${host}`);
    if (!own) return answerJson(response, 403, { problem: 'the request comes from another site' });
    const asked = `${request.method} ${target.path}`;
    if (asked === 'GET /') return phonePage(response);
    if (asked === 'GET /lead/') return classPage(response, 'lead', await this.#about.locale());
    if (asked === 'GET /room/') return classPage(response, 'room', await this.#about.locale());
    if (asked === 'GET /pictures.js') return pictureReader(response);
    if (asked === 'POST /pair/') return this.#pair(request, response);
    const phone = this.#phone(request);
    if (!phone) return answerJson(response, 401, { problem: 'this phone is not let in any more' });
    if ('class' in phone) {
      if (await this.#about.devices.answer(asked, phone, request, response)) return;
    } else {
      if (asked === 'GET /list/') return this.#list(phone, response);
      if (asked === 'POST /taps/') return this.#take(request, response);
    }
    answerJson(response, 404, { problem: 'there is nothing at this address' });
  }

  /** One code lets one phone in: whoever comes second with it, or too late, stays out. */
  async #pair(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, 1024);
    if ('problem' in body) return answerJson(response, body.status, { problem: body.problem });
    const given = z.strictObject({ token: z.string().max(100) }).safeParse(body.value);
    const invitation = this.#invitation;
    const now = this.#about.now();
    if (!given.success || !invitation || now >= invitation.until || !sameToken(given.data.token, invitation.hash))
      return answerJson(response, 401, { problem: 'this code was used already or is too old' });
    this.#invitation = undefined;
    const token = randomBytes(32).toString('base64url');
    if (this.#opening) {
      const phone = { hash: hashOf(token), ...invitation.purpose, until: now + OPEN_MS };
      await this.#keep({ ...this.#opening, phones: [...this.#opening.phones, phone] });
    }
    // A film is fetched by its element, which says no header of ours.
    if ('as' in invitation.purpose && invitation.purpose.as === 'room')
      response.setHeader('set-cookie', `${COOKIE}=${token}; HttpOnly; SameSite=Strict; Path=/`);
    answerJson(response, 200, { phone: token });
  }

  async #list({ lesson }: Extract<Pairing, { lesson: string }>, response: ServerResponse): Promise<void> {
    const list = await this.#about.listOf(lesson);
    if (!list) return answerJson(response, 404, { problem: 'the lesson of this code is there no more' });
    answerJson(response, 200, { ...list, taps: await readTaps(this.#about.content, lesson) });
  }

  /** Each tap goes into the log of its own lesson; the answer comes when it is on the disk. */
  async #take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request, TAPS_LIMIT);
    if ('problem' in body) return answerJson(response, body.status, { problem: body.problem });
    const read = tapsSchema.safeParse(body.value);
    if (!read.success) return answerJson(response, 400, { problem: 'the taps are not understood' });
    const grown = await addTaps(this.#about.content, read.data.taps);
    for (const lesson of grown) this.#about.hub.tell({ kind: 'shoot-log', lesson });
    answerJson(response, 200, { kept: read.data.taps.map(({ id }) => id) });
  }

  #phone(request: IncomingMessage): Pairing | undefined {
    const given = request.headers['x-liftside-phone'] ?? cookieOf(request);
    const now = this.#about.now();
    if (typeof given !== 'string' || !this.#opening || now >= this.#opening.until) return undefined;
    return this.#opening.phones.find((phone) => now < phone.until && sameToken(given, phone.hash));
  }
}

/** What stands in our own cookie, for reading only: nothing that changes anything is asked for by an element. */
function cookieOf({ method, headers }: IncomingMessage): string | undefined {
  if (method !== 'GET' && method !== 'HEAD') return undefined;
  return new RegExp(`(?:^|; )${COOKIE}=([\\w-]+)`).exec(headers.cookie ?? '')?.[1];
}
