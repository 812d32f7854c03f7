import { signal } from '@preact/signals';
import {
  type ClockReading,
  clockGap,
  type DayEvent,
  type DayFile,
  type DayLog,
  type DaySheet,
  dayAfter,
  dayFiles,
  logNow,
  timedEvents,
  timeOfLog,
} from '../../core/day/index.ts';
import { newId } from '../page/new-id.ts';
import type { DayKeeper, DayKept, DayOpened } from './day-server.ts';
import type { DayShelf } from './day-shelf.ts';

/** What a class that was laid aside left. */
export interface LaidAside {
  readonly date: string;
  readonly files: readonly DayFile[];
}

/** A gap from which on people are asked, s: no clock that wears or is put right by a server is so far off. A judgement. */
const SLEPT = 60;

/** A class of a package, kept by the page itself: the same log as the local server keeps, on the browser's shelf. */
export class PackedDay implements DayKeeper {
  readonly #sheet: DaySheet;
  readonly #shelf: DayShelf;
  readonly #name: string;
  readonly #clock: () => ClockReading;
  #before: ClockReading | undefined;
  /**
   * How much further this machine's clock has gone than the seconds were counted, s: it was set, or it slept. It counts
   * for nothing until somebody says which.
   */
  readonly gap = signal(0);

  /** @param name of the package, which its log stands under */
  constructor(sheet: DaySheet, shelf: DayShelf, name: string, clock: () => ClockReading) {
    this.#sheet = sheet;
    this.#shelf = shelf;
    this.#name = name;
    this.#clock = clock;
  }

  get lasting(): boolean {
    return this.#shelf.lasting;
  }

  async open(): Promise<DayOpened> {
    const now = this.#clock();
    const log = await this.#log(now);
    return { sheet: this.#sheet, events: log.events, at: timeOfLog(log, now) };
  }

  /** Reads the clocks anew as well, so that after a reload little is left to what the wall clock says. */
  async time(): Promise<number | null> {
    const now = this.#clock();
    const gap = this.#before ? clockGap(this.#before, now) : 0;
    this.#before = now;
    const log = await this.#log(now);
    if (log.anchor === undefined) return null;
    if (gap >= SLEPT) this.gap.value += gap;
    return this.#setClock(now, 0);
  }

  /** The machine slept: the class went on meanwhile. */
  async countGap(): Promise<void> {
    const slept = this.gap.value;
    this.gap.value = 0;
    await this.#setClock(this.#clock(), slept);
  }

  /** The clock was set: the class knows nothing of it. */
  leaveGap(): void {
    this.gap.value = 0;
  }

  async #setClock(now: ClockReading, more: number): Promise<number | null> {
    const log = await this.#shelf.change(this.#name, (was) => {
      if (!was.anchor) return was;
      const { anchor } = timedEvents(was, [], this.#sheet.startsAt, now);
      return { ...was, anchor: { ...anchor, at: anchor.at + more } };
    });
    return timeOfLog(log, now);
  }

  async send(events: readonly DayEvent[]): Promise<DayKept> {
    const now = this.#clock();
    let at = 0;
    let longAgo = false;
    await this.#shelf.change(this.#name, (was) => {
      longAgo = was.events.length > 0 && logNow(was, now).events.length === 0;
      if (longAgo) return was;
      const timed = timedEvents(was, events, this.#sheet.startsAt, now);
      const fresh = timed.events.filter(({ id }) => !was.events.some((known) => known.id === id));
      at = timed.anchor.at;
      return { events: [...was.events, ...fresh], anchor: timed.anchor };
    });
    if (longAgo) {
      await this.#layAside(now);
      return this.send(events);
    }
    return { at, notices: [] };
  }

  async afresh(): Promise<void> {
    await this.#layAside(this.#clock());
  }

  /** What comes of the class as it stands now. */
  async files(): Promise<readonly DayFile[]> {
    return this.#left(await this.#log(this.#clock())).files;
  }

  /** Classes that were laid aside, the last one first. */
  async aside(): Promise<readonly LaidAside[]> {
    const names = (await this.#shelf.names()).filter((name) => name.startsWith(`${this.#name} `));
    const logs = await Promise.all(names.map((name) => this.#shelf.read(name)));
    const stale = await this.#shelf.read(this.#name);
    const over = (await this.#log(this.#clock())).events.length === 0 ? [stale] : [];
    return [...logs, ...over]
      .filter(({ events }) => events.length > 0)
      .toSorted((a, b) => (b.anchor?.wall ?? 0) - (a.anchor?.wall ?? 0))
      .map((log) => this.#left(log));
  }

  #left({ events, anchor }: DayLog): LaidAside {
    // When it was planned to begin, on the clock that showed this day.
    const day = anchor ? new Date(anchor.wall - anchor.at * 1000) : new Date();
    const date = [day.getFullYear(), day.getMonth() + 1, day.getDate()]
      .map((part) => String(part).padStart(2, '0'))
      .join('-');
    return { date, files: dayFiles(this.#sheet, dayAfter(this.#sheet, events), date) };
  }

  async #log(now: ClockReading): Promise<DayLog> {
    return logNow(await this.#shelf.read(this.#name), now);
  }

  async #layAside({ wall }: ClockReading): Promise<void> {
    const log = await this.#shelf.read(this.#name);
    if (log.events.length === 0) return;
    await this.#shelf.change(`${this.#name} ${wall}`, () => log);
    await this.#shelf.change(this.#name, () => ({ events: [] }));
  }
}

/** What the clocks of this page show: one count of seconds as long as it is open, which nobody can set. */
export function pageClock(): () => ClockReading {
  const run = newId();
  return () => ({ run, steady: performance.now() / 1000, wall: Date.now() });
}
