import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { createServer, request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadShop } from '../../../src/node/files/index.ts';
import { closeServer } from '../../../src/node/http/index.ts';
import { ClassDevices } from '../../../src/node/server/class-devices.ts';
import { ClassRelay } from '../../../src/node/server/class-relay.ts';
import { DayDesk } from '../../../src/node/server/day-desk.ts';
import { Hub } from '../../../src/node/server/hub.ts';
import { Jobs, type StartWorker } from '../../../src/node/server/jobs.ts';
import { PhoneDesk } from '../../../src/node/server/phone-desk.ts';
import { presentPages } from '../../../src/node/server/present-pages.ts';
import type { Room } from '../../../src/node/server/room.ts';
import { router } from '../../../src/node/server/router.ts';
import { shotList } from '../../../src/node/server/shot-list.ts';
import { readShopLocale } from '../../../src/node/site/locales.ts';
import { sheetOf, talk } from '../../core/day/support.ts';
import { LESSON, RECORDING } from '../../core/edit/support.ts';

export { LESSON, RECORDING };
export const TOKEN = 'the-token-of-this-start';

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

export interface Served {
  readonly content: string;
  readonly port: number;
  readonly hub: Hub;
  readonly phone: PhoneDesk;
  /** `skip` sets the clock of the phones forward, milliseconds. */
  readonly clock: { skip: number };
  /** Another desk over the same content, as after a restart. */
  desk(): PhoneDesk;
  ask(
    path: string,
    init?: { method?: string; headers?: Record<string, string>; body?: string | Buffer },
  ): Promise<Answer>;
  /** As our own page asks. */
  own(path: string, body?: unknown): Promise<Answer>;
  close(): Promise<void>;
}

const DAY_SHEET = sheetOf([
  talk('welcome', [{ id: 'full', worth: 10, minutes: 5 }]),
  talk('end', [{ id: 'full', worth: 10, minutes: 5 }]),
]);

/** Work that never says anything and never ends by itself. */
const idle: StartWorker = () => ({ ended: new Promise(() => {}), stop: () => {} });

/** The cutting room's server over a small content folder of its own. */
export async function serve(worker: StartWorker = idle): Promise<Served> {
  const content = await realpath(await mkdtemp(join(tmpdir(), 'liftside-room-')));
  for (const folder of ['recordings', 'lessons', 'media', 'specs']) await mkdir(join(content, folder));
  await writeFile(join(content, 'shop.yaml'), 'name: Millrace Community Garage\n');
  await writeFile(join(content, 'recordings/pads.yaml'), RECORDING);
  await writeFile(join(content, 'lessons/pads.mdx'), LESSON);
  await writeFile(join(content, 'media/pads.mp4'), Buffer.from(Array.from({ length: 1000 }, (_, i) => i % 256)));
  const hub = new Hub();
  const clock = { skip: 0 };
  const now = () => Date.now() + clock.skip;
  const relay = new ClassRelay();
  const devices = new ClassDevices({
    hub,
    relay,
    footage: (request, response) => response.end(`footage ${request.url}`),
  });
  const listOf = async (id: string) => shotList(await loadShop(content), id);
  const locale = async () => readShopLocale((await loadShop(content)).shop);
  const desk = () => new PhoneDesk({ content, hub, now, listOf, locale, devices });
  const phone = desk();
  const room: Room = {
    content,
    home: process.cwd(),
    base: '/',
    token: TOKEN,
    hub,
    jobs: new Jobs(worker, (all) => hub.tell({ kind: 'jobs', jobs: all })),
    phone,
    relay,
    captionFiles: new Set(),
    day: new DayDesk({
      content,
      hub,
      clock: async () => ({ run: 'a', steady: (Date.now() + clock.skip) / 1000, wall: Date.now() + clock.skip }),
      today: () => '2027-03-06',
      sheetOf: async (id) => (id === 'test' ? DAY_SHEET : undefined),
    }),
    lan: '127.0.0.1',
    load: () => loadShop(content),
    now: () => new Date(),
  };
  const handle = router(room);
  const present = presentPages(room);
  const server = createServer((request, response) => {
    void handle(request, response, () => {
      void present(request, response, () => {
        response.statusCode = 404;
        response.end('not ours');
      });
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const ask: Served['ask'] = (path, init = {}) => send(port, path, init);
  return {
    content,
    port,
    hub,
    phone,
    clock,
    desk,
    ask,
    own: (path, body) =>
      ask(path, {
        method: body === undefined ? 'GET' : 'POST',
        headers: {
          'x-liftside-token': TOKEN,
          'sec-fetch-site': 'same-origin',
          ...(body === undefined ? {} : { origin: `http://127.0.0.1:${port}`, 'content-type': 'application/json' }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      }),
    async close() {
      await phone.close();
      await closeServer(server);
      await rm(content, { recursive: true, force: true });
    },
  };
}

/** A plain request: fetch would not let a test lie about its Host. */
export function send(
  port: number,
  path: string,
  { method = 'GET', headers = {}, body }: { method?: string; headers?: Record<string, string>; body?: string | Buffer },
): Promise<Answer> {
  return new Promise((done, failed) => {
    // A connection of its own: one that the server has closed meanwhile is no answer.
    const request = httpRequest({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () =>
        done({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: Buffer.concat(chunks).toString('latin1'),
        }),
      );
      response.on('error', failed);
    });
    request.on('error', failed);
    request.end(body);
  });
}
