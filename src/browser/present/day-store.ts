import { computed, type ReadonlySignal, signal } from '@preact/signals';
import {
  type Clip,
  clipShown,
  clipsNow,
  courseOf,
  type DayAct,
  type DayEvent,
  type DaySheet,
  type DayState,
  dayAfter,
  dayStep,
  type Outlook,
  outlookOf,
  type Way,
} from '../../core/day/index.ts';
import type { OpenToPhones } from '../cutting-room/api.ts';
import { newId } from '../page/new-id.ts';
import { t } from '../page/words.ts';
import type { AdviceOrder, Advised } from './answer-orders.ts';
import type { Ticker } from './class-ticker.ts';
import { MIDDLE } from './pointing.ts';
import type { Pointing, RoomView } from './room-channel.ts';

/** What the store needs from outside. */
export interface DayOutside {
  readonly ticker: Ticker;
  /** Looks for ways out beside the page. */
  readonly adviser: Worker;
  /** Writes an event down. */
  keep(event: DayEvent): void;
}

/** So long a look at what remains stands before the next one is asked for, s of the class. */
const LOOK_AGAIN = 20;

/** The class day in one window: its events and what comes of them. */
export class DayStore {
  readonly sheet: DaySheet;
  readonly state = signal<DayState>({} as DayState);
  /** Moment of the class, s; on the second. */
  readonly at = signal<number | undefined>(undefined);
  readonly outlook: ReadonlySignal<Outlook>;
  readonly ways = signal<readonly Way[]>([]);
  /** How long the last look at the ways took, ms. */
  readonly lookMs = signal(0);
  /** A way that moves what is never moved without asking, pressed once. */
  readonly asked = signal<number | undefined>(undefined);
  readonly notices = signal<readonly string[]>([]);
  readonly unsent = signal(0);
  readonly roomOpen = signal(false);
  readonly roomRefused = signal(false);
  /** Devices on the shop's network that can get in; nothing where none can. */
  readonly devices = signal<OpenToPhones | null>(null);
  /** What is pointed at, and in which showing of a clip: another picture has other things to point at. */
  readonly pointed = signal<(Pointing & { readonly start: number }) | undefined>(undefined);
  readonly #outside: DayOutside;
  readonly #worker: Worker;
  #looked = Number.NEGATIVE_INFINITY;
  /** Counts what has happened: a look at a class that has changed since says nothing of it. */
  #happened = 0;
  /** A look is under way: another one would only wait behind it, and be too old when it comes. */
  #looking = false;
  #lookAgain = false;
  #count = 0;
  readonly #run = newId();

  constructor(sheet: DaySheet, events: readonly DayEvent[], outside: DayOutside) {
    this.sheet = sheet;
    this.#outside = outside;
    this.state.value = dayAfter(sheet, events);
    this.outlook = computed(() => outlookOf(sheet, this.state.value, this.at.value ?? 0));
    this.#worker = outside.adviser;
    this.#worker.addEventListener('message', ({ data }: MessageEvent<Advised>) => {
      this.#looking = false;
      if (data.number === this.#happened) {
        // A way that waits for its second press stays the one that was pressed.
        const same =
          data.ways.map(({ text }) => text).join('\n') === this.ways.value.map(({ text }) => text).join('\n');
        if (!same) this.asked.value = undefined;
        this.ways.value = data.ways;
        this.lookMs.value = data.took;
      }
      if (this.#lookAgain) this.#look(this.#outside.ticker.now() ?? 0);
    });
    this.#looking = true;
    const order: AdviceOrder = { number: 0, sheet, state: this.state.value, at: 0 };
    this.#worker.postMessage(order);
    this.tick();
  }

  /** The clock has moved on. */
  tick(): void {
    const now = this.#outside.ticker.now();
    this.at.value = now;
    const moment = now ?? 0;
    if (this.state.value.phase !== 'over' && Math.abs(moment - this.#looked) >= LOOK_AGAIN) this.#look(moment);
  }

  /** Something happens now. */
  act(act: DayAct): DayEvent {
    const at = this.#outside.ticker.now() ?? 0;
    const event = { ...act, id: `${this.#run}-${++this.#count}`, at } as DayEvent;
    this.state.value = dayStep(this.sheet, this.state.value, event);
    this.#outside.keep(event);
    this.at.value = at;
    this.#happened++;
    this.#look(at);
    return event;
  }

  /** Everything that is known, from another window or after the server was away. */
  take(events: readonly DayEvent[]): void {
    this.state.value = dayAfter(this.sheet, events);
    this.#happened++;
    this.#look(this.#outside.ticker.now() ?? 0);
  }

  /** One key takes a way; a second one where it moves what is never moved without asking. */
  takeWay(place: number): void {
    const way = this.ways.value[place];
    if (!way) return;
    if (way.asks !== undefined && this.asked.value !== place) {
      this.asked.value = place;
      return;
    }
    const { changes, slotSeconds, freed, text } = way;
    this.asked.value = undefined;
    this.ways.value = [];
    this.act({
      kind: 'change',
      changes: [...changes],
      text: text.slice(0, 500),
      ...(slotSeconds !== undefined && { slotSeconds }),
      ...(freed !== undefined && { freed: [...freed] }),
    });
  }

  /** What is pointed at on the picture that is shown now. */
  get pointing(): Pointing | null {
    const pointed = this.pointed.value;
    return pointed && pointed.start === this.state.value.screen.start && this.shown ? pointed : null;
  }

  /** The picture stands still, and the pointer is in its middle; pressed again it ends. */
  freeze(): void {
    if (this.pointing) {
      this.pointed.value = undefined;
      return;
    }
    if (!this.shown) return;
    if (this.state.value.screen.playing) this.act({ kind: 'pause' });
    this.pointed.value = { at: MIDDLE, rings: [], start: this.state.value.screen.start };
  }

  point(pointing: Pointing): void {
    this.pointed.value = { ...pointing, start: this.state.value.screen.start };
  }

  /** What the block that is on shows. */
  get clips(): readonly Clip[] {
    return clipsNow(this.sheet, this.state.value);
  }

  get shown(): Clip | undefined {
    return clipShown(this.sheet, this.clips, this.state.value.screen);
  }

  /** Planned length of a block as it is given, for those who came, s. */
  lengthOf(id: string): number {
    const { given, attendance } = this.state.value;
    const block = courseOf(this.sheet, attendance).plan.blocks.find((each) => each.id === id);
    return block?.treatments.find((way) => way.id === given[id])?.seconds ?? 0;
  }

  /** What is left of the block that is on by its planned length, s. */
  get left(): number | null {
    const { now, times } = this.state.value;
    const start = now === undefined ? undefined : times[now]?.start;
    if (now === undefined || start === undefined) return null;
    return this.lengthOf(now) - ((this.at.value ?? start) - start);
  }

  get roomView(): RoomView {
    const { screen, phase, now } = this.state.value;
    const block = this.sheet.shopClass.blocks.find(({ id }) => id === now);
    const clip = this.shown ?? null;
    const { playing, speed, dark, start, ran, talking } = screen;
    const words =
      phase === 'before'
        ? { title: this.sheet.shopClass.title, line: t('We begin at {time}.', { time: this.sheet.shopClass.starts }) }
        : phase === 'over'
          ? { title: t('Thank you for coming'), line: t('Every step is on our site, to be looked up at home.') }
          : { title: block?.title ?? '', line: this.sheet.blocks.find(({ id }) => id === now)?.meanwhile ?? '' };
    return {
      ...{ clip, playing, speed, dark, start, ran, ...words, left: this.left },
      pointing: playing ? null : this.pointing,
      year: screen.year ?? null,
      talk: talking ? (clip?.talk?.text ?? '') : null,
    };
  }

  #look(at: number): void {
    this.#looked = at;
    this.#lookAgain = this.#looking;
    if (this.#looking) return;
    this.#looking = true;
    const order: AdviceOrder = { number: this.#happened, state: this.state.value, at };
    this.#worker.postMessage(order);
  }
}
