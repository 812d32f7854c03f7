import type { RoomWord } from '../../core/day/index.ts';
import type { Api, OpenToPhones } from '../cutting-room/api.ts';
import type { DayStore } from './day-store.ts';
import { LEAD_KEYS, type LeadDoes } from './lead-keys.ts';
import { leadView } from './lead-view.ts';

/** How a device gets in. */
export interface DeviceInvitation {
  readonly url: string;
  readonly minutes: number;
  readonly open: OpenToPhones | null;
}

/** So many presses are remembered: one that comes twice is acted on once. */
const REMEMBERED = 200;

interface Listener {
  readonly does: (what: LeadDoes) => void;
  readonly hear: (word: RoomWord) => void;
  readonly phones: (open: OpenToPhones | null) => void;
}

/** Devices on the shop's network: what they are shown, and what they say. */
export class Devices {
  readonly #api: Api;
  readonly #class: string;
  readonly #store: DayStore;
  readonly #seen: string[] = [];
  #open = false;
  #told = '';
  #filmsGiven = false;
  #busy = false;

  constructor(api: Api, of: string, store: DayStore) {
    this.#api = api;
    this.#class = of;
    this.#store = store;
  }

  /** Lets one more device in: `lead` a helper's phone, `room` a screen. */
  async invite(as: 'lead' | 'room'): Promise<DeviceInvitation> {
    return this.#api.post<DeviceInvitation>('phone/open/', { class: this.#class, as });
  }

  async close(): Promise<void> {
    await this.#api.post('phone/close/', {});
  }

  /** Listens to what devices say. */
  listen(heard: Listener): void {
    const look = async () => {
      const { open } = await this.#api.get<{ open: OpenToPhones | null }>('phones/');
      this.#open = open !== null;
      heard.phones(open);
    };
    const hear = (news: unknown) => {
      if (typeof news !== 'object' || news === null || !('kind' in news)) return;
      if (news.kind === 'phones') void look().catch(() => undefined);
      if (!('class' in news) || news.class !== this.#class) return;
      if (news.kind === 'press' && 'press' in news) this.#press(news.press as Pressed, heard.does);
      if (news.kind === 'room-word' && 'word' in news) heard.hear(news.word as RoomWord);
    };
    const there = (is: boolean) => {
      // A server that was started anew has been shown nothing yet.
      this.#told = '';
      this.#filmsGiven = false;
      if (is) void look().catch(() => undefined);
    };
    void this.#api.news(new AbortController().signal, hear, there);
  }

  #press({ id, does }: Pressed, act: (what: LeadDoes) => void): void {
    if (this.#seen.includes(id)) return;
    this.#seen.push(id);
    if (this.#seen.length > REMEMBERED) this.#seen.shift();
    if (LEAD_KEYS.some((key) => key.does === does)) act(does);
  }

  /** Shows devices what has changed; called often. */
  async show(): Promise<void> {
    if (!this.#open || this.#busy) return;
    const shown = { lead: leadView(this.#store), room: this.#store.roomView };
    const text = JSON.stringify(shown);
    if (text === this.#told) return;
    this.#busy = true;
    try {
      const films = this.#filmsGiven ? {} : { films: this.#store.sheet.films };
      await this.#api.post('day/show/', { class: this.#class, ...shown, ...films });
      this.#told = text;
      this.#filmsGiven = true;
    } catch {
      // Shown again with the next change.
    } finally {
      this.#busy = false;
    }
  }
}

interface Pressed {
  readonly id: string;
  readonly does: LeadDoes;
}
