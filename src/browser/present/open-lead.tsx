/** @jsxImportSource preact */
import '../cutting-room/policy.ts';
import { effect } from '@preact/signals';
import { render } from 'preact';
import { type DayEvent, drawCourse } from '../../core/day/index.ts';
import { Api } from '../cutting-room/api.ts';
import { classTicker } from './class-ticker.ts';
import { DayMemory } from './day-memory.ts';
import { type DayDeskData, DayServer } from './day-server.ts';
import { DayStore } from './day-store.ts';
import { Devices } from './devices.ts';
import { Lead } from './Lead.tsx';
import { doesOf, type LeadDoes } from './lead-keys.ts';
import { rehearse } from './rehearse.ts';
import { type RoomWord, roomChannel } from './room-channel.ts';

const TICK_MS = 250;
const SYNC_MS = 10_000;
const RETRY_MS = 1000;
/** A room window that has not been heard for so long is closed, ms. */
const ROOM_GONE_MS = 3500;

async function start(): Promise<void> {
  const place = document.querySelector('#day');
  const data = JSON.parse(document.querySelector('#desk')?.textContent ?? 'null') as DayDeskData | null;
  if (!place || !data) return;
  try {
    await open(place, data);
  } catch (error) {
    place.textContent = `The class could not be opened: ${error instanceof Error ? error.message : String(error)}`;
  }
}

async function open(place: Element, data: DayDeskData): Promise<void> {
  const asked = new URL(location.href).searchParams.get('rehearse');
  const rehearsal = asked === null ? undefined : Math.min(60, Math.max(1, Number(asked) || 20));
  const { token, base } = data;
  const api = new Api({ token, base, page: `${base}classes/${data.class}/present/` });
  const server = new DayServer(api, data.class);
  const memory = await DayMemory.open(data.class);
  const opened = await server.open();
  const ticker = classTicker(rehearsal);
  const unsent = new Map<string, DayEvent>();
  if (rehearsal === undefined) {
    ticker.take(opened.at);
    for (const event of await memory.unsent()) unsent.set(event.id, event);
  }
  const known = rehearsal === undefined ? opened.events : [];
  const waiting = [...unsent.values()].filter(({ id }) => !known.some((event) => event.id === id));
  const store = new DayStore(opened.sheet, [...known, ...waiting], {
    ticker,
    keep(event) {
      if (rehearsal !== undefined) return;
      unsent.set(event.id, event);
      memory.keep(event);
      void send();
    },
  });

  let sending = false;
  async function send(): Promise<void> {
    store.unsent.value = unsent.size;
    if (sending || unsent.size === 0) return;
    sending = true;
    const batch = [...unsent.values()];
    try {
      const kept = await server.send(batch);
      for (const { id } of batch) unsent.delete(id);
      memory.forget(batch);
      ticker.take(kept.at);
      store.notices.value = kept.notices;
      if (batch.some(({ kind }) => kind === 'begin')) {
        // Begun at what the server's clock shows; what was pressed meanwhile is on its way yet.
        const { events } = await server.open();
        store.take([...events, ...[...unsent.values()].filter(({ id }) => !events.some((known) => known.id === id))]);
      }
    } catch {
      // Kept in this browser, and sent again until the disk has it.
      await new Promise((done) => setTimeout(done, RETRY_MS));
    } finally {
      sending = false;
      store.unsent.value = unsent.size;
    }
    if (unsent.size > 0) void send();
  }

  const begin = () => {
    if (rehearsal !== undefined) {
      const course = drawCourse(store.sheet, Math.floor(Math.random() * 2 ** 31), store.state.value.attendance);
      ticker.take(course.late);
      store.act({ kind: 'begin' });
      rehearse(store, course);
      return;
    }
    store.act({ kind: 'begin' });
  };
  const afresh = async () => {
    await server.afresh();
    location.reload();
  };

  const channel = roomChannel(data.class);
  let heard = Number.NEGATIVE_INFINITY;
  const tell = () => channel.postMessage({ kind: 'view', view: store.roomView });
  const hear = (word: RoomWord | { readonly kind: 'hello' }) => {
    if (word.kind === 'hello') {
      channel.postMessage({ kind: 'films', films: store.sheet.films });
      tell();
    }
    if (word.kind === 'here') {
      heard = performance.now();
      store.roomOpen.value = true;
      store.roomRefused.value = word.refused && store.state.value.screen.playing;
    }
    if (word.kind === 'clip-over' && word.start === store.state.value.screen.start) store.act({ kind: 'clip-over' });
  };
  channel.onmessage = ({ data: word }: MessageEvent<RoomWord | { kind: 'hello' }>) => hear(word);
  effect(() => {
    store.state.value;
    store.at.value;
    store.pointed.value;
    tell();
  });
  // A room that was opened before this page has no films yet.
  channel.postMessage({ kind: 'films', films: store.sheet.films });

  const does = (what: LeadDoes) => act(store, what);
  const devices = new Devices(api, data.class, store);
  devices.listen({
    does,
    hear,
    phones(open) {
      store.devices.value = open;
    },
  });
  document.addEventListener('keydown', (event) => {
    const what = doesOf(event);
    if (what === undefined || (event.repeat && what !== 'one-more' && what !== 'one-fewer')) return;
    event.preventDefault();
    does(what);
  });
  setInterval(() => {
    store.tick();
    void devices.show();
    if (performance.now() - heard > ROOM_GONE_MS) store.roomOpen.value = false;
  }, TICK_MS);
  const sync = () =>
    void server
      .time()
      .then((at) => rehearsal === undefined && unsent.size === 0 && ticker.take(at))
      .catch(() => undefined);
  setInterval(sync, SYNC_MS);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && sync());
  void send();
  const openRoom = () =>
    void window.open(
      `${data.base}classes/${data.class}/present/room/`,
      `liftside-room-${data.class}`,
      'popup,width=1280,height=720',
    );
  place.replaceChildren();
  render(
    <Lead
      store={store}
      server={server}
      devices={devices}
      rehearsal={rehearsal}
      does={does}
      begin={begin}
      afresh={() => void afresh()}
      openRoom={openRoom}
    />,
    place,
  );
}

/** What a key or button does, to the class as it stands. */
function act(store: DayStore, what: LeadDoes): void {
  const { attendance, screen, phase } = store.state.value;
  switch (what) {
    case 'way-1':
    case 'way-2':
    case 'way-3':
      store.takeWay(Number(what.slice(-1)) - 1);
      return;
    case 'one-more':
    case 'one-fewer':
      store.act({ kind: 'attendance', count: Math.max(0, (attendance ?? 0) + (what === 'one-more' ? 1 : -1)) });
      return;
    case 'point':
      store.freeze();
      return;
    case 'year':
    case 'step':
    case 'question':
      document.querySelector<HTMLInputElement>(`input[name=${what}]`)?.focus();
      return;
    case 'toggle':
      store.act({ kind: screen.playing ? 'pause' : 'play' });
      return;
    case 'dark':
      store.act({ kind: 'dark', on: !screen.dark });
      return;
    case 'next':
    case 'back':
      if (phase !== 'before') store.act({ kind: what });
      return;
    case 'undo':
      if (store.state.value.changed.length > 0) store.act({ kind: 'undo' });
      return;
    default:
      store.act({ kind: what });
  }
}

void start();
