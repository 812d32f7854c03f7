/** @jsxImportSource preact */
import { effect } from '@preact/signals';
import { type ComponentChild, render } from 'preact';
import { type DayEvent, drawCourse, type RoomWord } from '../../core/day/index.ts';
import { classTicker } from './class-ticker.ts';
import type { Memory } from './day-memory.ts';
import type { DayKeeper } from './day-server.ts';
import { DayStore } from './day-store.ts';
import type { Devices } from './devices.ts';
import { Lead } from './Lead.tsx';
import { doesOf, type LeadDoes } from './lead-keys.ts';
import { rehearse } from './rehearse.ts';
import type { RoomLink } from './room-channel.ts';
import type { Trials } from './TryOut.tsx';

const TICK_MS = 250;
const SYNC_MS = 10_000;
const RETRY_MS = 1000;
/** A room window that has not been heard for so long is closed, ms. */
const ROOM_GONE_MS = 3500;

/** What the window of the one who leads needs from where it is opened. */
export interface LeadOutside {
  readonly keeper: DayKeeper;
  /** Remembers what the keeper has not written down yet. */
  readonly memory: Memory;
  readonly room: RoomLink;
  /** Looks for ways out. */
  readonly adviser: Worker;
  /** Devices on the shop's network, where there is a server for them. */
  readonly devices?: (store: DayStore) => Devices;
  /** What would be if, where the class can be fitted anew. */
  readonly trials?: Trials;
  /** What stands in the place of the server's files, where there is none. */
  readonly files?: (store: DayStore) => ComponentChild;
  /** What the page has to say of its clock; `sync` reads it anew. */
  readonly clock?: (sync: () => void) => ComponentChild;
}

/**
 * Opens the window of the one who leads a class. `?rehearse=20` in its address plays the class with drawn delays, 20
 * times as fast, and writes nothing down.
 */
export async function leadClass(place: Element, outside: LeadOutside): Promise<void> {
  const asked = new URL(location.href).searchParams.get('rehearse');
  const rehearsal = asked === null ? undefined : Math.min(60, Math.max(1, Number(asked) || 20));
  const { keeper, memory, room, adviser } = outside;
  const opened = await keeper.open();
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
    adviser,
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
      const kept = await keeper.send(batch);
      for (const { id } of batch) unsent.delete(id);
      memory.forget(batch);
      ticker.take(kept.at);
      store.notices.value = kept.notices;
      if (batch.some(({ kind }) => kind === 'begin')) {
        // Begun at what the server's clock shows; what was pressed meanwhile is on its way yet.
        const { events } = await keeper.open();
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
    await keeper.afresh();
    location.reload();
  };

  let heard = Number.NEGATIVE_INFINITY;
  const tell = () => room.tell({ kind: 'view', view: store.roomView });
  const hear = (word: RoomWord) => {
    // A room that was opened before this page has no films yet.
    if (word.kind === 'hello' || !store.roomOpen.value) {
      room.tell({ kind: 'films', films: store.sheet.films });
      tell();
    }
    if (word.kind === 'here') {
      heard = performance.now();
      store.roomOpen.value = true;
      store.roomRefused.value = word.refused && store.state.value.screen.playing;
    }
    if (word.kind === 'clip-over' && word.start === store.state.value.screen.start) store.act({ kind: 'clip-over' });
  };
  room.listen(hear);
  effect(() => {
    store.state.value;
    store.at.value;
    store.pointed.value;
    tell();
  });

  const does = (what: LeadDoes) => act(store, what);
  const devices = outside.devices?.(store);
  devices?.listen({
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
    void devices?.show();
    if (performance.now() - heard > ROOM_GONE_MS) store.roomOpen.value = false;
  }, TICK_MS);
  const sync = () =>
    void keeper
      .time()
      .then((at) => rehearsal === undefined && unsent.size === 0 && ticker.take(at))
      .catch(() => undefined);
  setInterval(sync, SYNC_MS);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && sync());
  void send();
  place.replaceChildren();
  render(
    <Lead
      store={store}
      trials={outside.trials}
      devices={devices}
      files={outside.files?.(store)}
      clock={rehearsal === undefined && outside.clock?.(sync)}
      rehearsal={rehearsal}
      does={does}
      begin={begin}
      afresh={() => void afresh()}
      openRoom={() => room.open()}
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
