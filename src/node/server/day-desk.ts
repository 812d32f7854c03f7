import { hash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import {
  type ClockReading,
  type DayEvent,
  type DayLog,
  type DaySheet,
  dayAfter,
  dayFiles,
  logNow,
  timedEvents,
  timeOfLog,
} from '../../core/day/index.ts';
import { errorCode, placeFile, privateFolder, saveText } from '../files/index.ts';
import { addToDayLog, layDayLogAside, readDayLog } from './day-log.ts';
import type { Hub } from './hub.ts';

export interface DayDeskOptions {
  readonly content: string;
  readonly hub: Hub;
  readonly clock: () => Promise<ClockReading>;
  /** The day, YYYY-MM-DD, where the shop is. */
  readonly today: () => string;
  /** The sheet of a class as it is written now; nothing where there is no such class. */
  readonly sheetOf: (id: string) => Promise<DaySheet | undefined>;
}

/** A class as the page of its day takes it up. */
export interface DayOpened {
  readonly sheet: DaySheet;
  readonly events: readonly DayEvent[];
  /** What the clock of the class shows, s from its planned start; nothing before it has begun. */
  readonly at: number | null;
  /** What the wall clock shows, milliseconds since 1970. */
  readonly wall: number;
}

/** What became of events. */
export interface DayKept {
  readonly at: number;
  /** What could not be written into the content, and why, in words. */
  readonly notices: readonly string[];
}

/**
 * Keeps what happens in a class: each event in a log of its own, flushed before the answer, and what comes of them in
 * the content: how long the blocks took, and the questions set aside. The log is the memory; what stands in the
 * content is made from it, and never over what somebody else has written there.
 */
export class DayDesk {
  readonly #about: DayDeskOptions;
  /** The sheet that a class was opened with: it holds for the day, whatever is written meanwhile. */
  readonly #sheets = new Map<string, DaySheet>();
  #last: Promise<unknown> = Promise.resolve();

  constructor(about: DayDeskOptions) {
    this.#about = about;
  }

  /** @returns nothing where there is no such class */
  async open(id: string): Promise<DayOpened | undefined> {
    const sheet = await this.#about.sheetOf(id);
    if (!sheet) return undefined;
    const now = await this.#about.clock();
    const log = await this.#log(id, now);
    if (log.events.length === 0 || !this.#sheets.has(id)) this.#sheets.set(id, sheet);
    return { sheet: this.#sheets.get(id) ?? sheet, events: log.events, at: timeOfLog(log, now), wall: now.wall };
  }

  /** What the clock of a class shows; nothing before it has begun. */
  async time(id: string): Promise<number | null> {
    const now = await this.#about.clock();
    return timeOfLog(await this.#log(id, now), now);
  }

  /**
   * Writes events down. The first event of a class sets its clock, and begins at what it shows.
   *
   * @returns nothing where there is no such class
   * @throws when the disk does not take them: the page keeps them and sends them again
   */
  take(id: string, events: readonly DayEvent[]): Promise<DayKept | undefined> {
    const turn = this.#last.then(() => this.#take(id, events));
    this.#last = turn.catch(() => undefined);
    return turn;
  }

  /** The class begins anew. What was written down of it is laid aside, not thrown away. */
  async afresh(id: string): Promise<void> {
    await layDayLogAside(this.#about.content, id, (await this.#about.clock()).wall);
    this.#sheets.delete(id);
    this.#about.hub.tell({ kind: 'day', class: id });
  }

  async #take(id: string, events: readonly DayEvent[]): Promise<DayKept | undefined> {
    const sheet = this.#sheets.get(id) ?? (await this.#about.sheetOf(id));
    if (!sheet) return undefined;
    this.#sheets.set(id, sheet);
    const now = await this.#about.clock();
    const before = await this.#log(id, now);
    if (before.events.length === 0 && before.anchor === undefined) await this.#layStaleAside(id);
    const { events: timed, anchor } = timedEvents(before, events, sheet.startsAt, now);
    const log = await addToDayLog(this.#about.content, id, timed, anchor);
    this.#about.hub.tell({ kind: 'day', class: id });
    return { at: anchor.at, notices: await this.#writeContent(sheet, log) };
  }

  /** What is written down; a class of long ago is another class. */
  async #log(id: string, now: ClockReading): Promise<DayLog> {
    return logNow(await readDayLog(this.#about.content, id), now);
  }

  async #layStaleAside(id: string): Promise<void> {
    const { events } = await readDayLog(this.#about.content, id);
    if (events.length > 0) await layDayLogAside(this.#about.content, id, (await this.#about.clock()).wall);
  }

  async #writeContent(sheet: DaySheet, { events }: DayLog): Promise<string[]> {
    const notices: string[] = [];
    for (const { file, text } of dayFiles(sheet, dayAfter(sheet, events), this.#about.today())) {
      const notice = await this.#writeOwn(file, text);
      if (notice !== undefined) notices.push(notice);
    }
    return notices;
  }

  /** Writes a file that only this desk writes; one that somebody else has written or changed stays as it is. */
  async #writeOwn(file: string, text: string): Promise<string | undefined> {
    const { content } = this.#about;
    const known = join(await privateFolder(content, 'day'), `${file.replaceAll('/', '_')}.sha256`);
    const was = await readFile(join(content, file), 'utf8').catch((error: unknown) => {
      if (errorCode(error) === 'ENOENT') return undefined;
      throw error;
    });
    if (was === text) return undefined;
    const own = await readFile(known, 'utf8').catch(() => '');
    if (was !== undefined && hash('sha256', was) !== own)
      return `${file} was written by somebody else and stays as it is; what happens today is kept in the log of the class`;
    // Before the text itself: where the process ends in between, the text that is there is still taken for our own.
    if (was === undefined) await placeFile(known, hash('sha256', text));
    const saved = await saveText(content, { file, was, text });
    if (!saved.ok) return `${saved.problem}; ${saved.help}`;
    await placeFile(known, hash('sha256', text));
    return undefined;
  }
}
