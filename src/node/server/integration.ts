import { randomBytes } from 'node:crypto';
import { realpath } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { relative, sep } from 'node:path';
import type { AstroIntegration } from 'astro';
import { isFootage } from '../../core/media/index.ts';
import { isoDay } from '../../core/time/index.ts';
import { type LoadedShop, sweep } from '../files/index.ts';
import { daySheetOf } from '../site/day-sheet-of.ts';
import { readShopLocale } from '../site/locales.ts';
import { siteFootage } from '../site/site-footage.ts';
import { ClassDevices } from './class-devices.ts';
import { ClassRelay } from './class-relay.ts';
import { readClock } from './day-clock.ts';
import { DayDesk } from './day-desk.ts';
import { gate, readAddressesFirst } from './gate.ts';
import { Hub } from './hub.ts';
import { commandWorker, Jobs } from './jobs.ts';
import { type OpenToPhones, PhoneDesk } from './phone-desk.ts';
import { presentPages } from './present-pages.ts';
import type { Room } from './room.ts';
import { router } from './router.ts';
import { factsOf } from './routes/open.ts';
import { addressesOf } from './routes/phone.ts';
import { SettledFacts } from './settled-facts.ts';
import { SettledTexts } from './settled-text.ts';
import { shotList } from './shot-list.ts';

const PLAIN_DECODER = createRequire(import.meta.url).resolve('decode-named-character-reference');

/** What the page's modules import; named here so that the first visit need not wait for them to be found. */
const PAGE_LIBRARIES = ['preact', 'preact/hooks', 'preact/jsx-runtime', 'preact/jsx-dev-runtime', '@preact/signals'];

export interface CuttingRoomOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Absolute path of Liftside. */
  readonly home: string;
  /** Reads the content folder. */
  readonly load: () => Promise<LoadedShop>;
  readonly now: () => Date;
  /** Address on the shop's network that phones reach, where it is to be another one than the first found. */
  readonly lan?: string | undefined;
}

/** Mounts the cutting room into Astro's local server. It knows no build: nothing of it is ever published. */
export function cuttingRoom({ content, home, load, now, lan }: CuttingRoomOptions): AstroIntegration {
  let base = '/';
  return {
    name: 'liftside-cutting-room',
    hooks: {
      'astro:config:setup': ({ command, updateConfig }) => {
        if (command !== 'dev') return;
        updateConfig({
          vite: {
            // The variant for pages asks the document, which the checker's worker has not.
            resolve: { alias: { 'decode-named-character-reference': PLAIN_DECODER } },
            // Pages on other ports of this machine have no business here.
            server: { cors: false },
            optimizeDeps: { entries: ['src/browser/{cutting-room,present}/*.{ts,tsx}'], include: PAGE_LIBRARIES },
          },
        });
      },
      'astro:config:done': ({ config }) => {
        base = config.base.endsWith('/') ? config.base : `${config.base}/`;
      },
      'astro:server:setup': async ({ server, logger }) => {
        const real = await realpath(content);
        // A folder that cannot be written to can still be looked at.
        await sweep(real).catch(() => undefined);
        const hub = new Hub();
        const relay = new ClassRelay();
        const jobs = new Jobs(commandWorker(home, real), (all) => hub.tell({ kind: 'jobs', jobs: all }));
        const room: Room = {
          content: real,
          home,
          base,
          token: randomBytes(32).toString('base64url'),
          hub,
          jobs,
          phone: new PhoneDesk({
            content: real,
            hub,
            now: () => now().getTime(),
            listOf: async (lesson) => shotList(await load(), lesson),
            locale: async () => readShopLocale((await load()).shop),
            devices: new ClassDevices({ hub, relay, footage: siteFootage }),
          }),
          day: new DayDesk({
            content: real,
            hub,
            clock: () => readClock(now().getTime()),
            today: () => isoDay(now()),
            sheetOf: (id) => daySheetOf(id, base),
          }),
          relay,
          captionFiles: new Set(),
          load,
          now,
          lan,
        };
        server.middlewares.use(router(room));
        server.middlewares.use(presentPages(room));
        // Others put themselves in front until the server listens: only then does it stand before them all.
        server.httpServer?.once('listening', () =>
          server.middlewares.stack.unshift({ route: '', handle: gate({ home, base }) }),
        );
        if (server.httpServer) readAddressesFirst(server.httpServer);
        server.watcher.add(content);
        const texts = new SettledTexts(hub);
        const facts = new SettledFacts(hub, async () => factsOf((await room.load()).shop));
        server.watcher.on('all', (_event, path) => {
          const file = relative(content, path).split(sep).join('/');
          const hidden = file.startsWith('..') || /(^|\/)\./.test(file);
          if (!hidden && (isFootage(file) || file.startsWith('recordings/'))) facts.note();
          if (file.startsWith('..') || !/\.(ya?ml|mdx?|vtt)$/.test(file) || /(^|\/)\./.test(file)) return;
          texts.note(file, path);
        });
        server.httpServer?.on('close', () => {
          texts.stop();
          facts.stop();
          jobs.close();
          void room.phone.stop();
        });
        let told = '';
        hub.listen(({ kind }) => {
          if (kind !== 'phones') return;
          const words = openInWords(room.phone.open);
          if (words !== told) logger.warn(words);
          told = words;
        });
        await room.phone.resume(addressesOf(room));
      },
    },
  };
}

/** What the terminal says of phones; for as long as they can get in the page of the cutting room shows it too. */
function openInWords(open: OpenToPhones | undefined): string {
  if (!open) return 'closed to phones';
  const until = new Date(open.until).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  return `open to phones on the network at ${open.hosts.join(' and ')}, until ${until} or "Close to phones"`;
}
