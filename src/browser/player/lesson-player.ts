import { planFromJson } from '../../core/programme/index.ts';
import { fromSeconds, parseFragment, ticks, toProgramme, toSeconds } from '../../core/time/index.ts';
import { Scope } from '../page/scope.ts';
import { CorrectionCards } from './correction-cards.ts';
import { CurrentStep } from './current-step.ts';
import { actionOf, type KeyAction } from './keys.ts';
import { frameSeconds, type LessonData, neighbour } from './lesson-data.ts';
import type { Player } from './open-player.ts';
import { settings } from './settings.ts';

/** How far an arrow key goes, seconds. */
const LEAP = 5;

/**
 * The lesson's player: the page is complete without it (a plain video, links to the moments); it puts the programme
 * in the video's place and ties it to the steps.
 */
export class LessonPlayer extends HTMLElement {
  #scope = new Scope();
  #opening: Promise<Player> | undefined;
  #player: Player | undefined;
  #current: CurrentStep | undefined;
  #corrections: CorrectionCards | undefined;
  #data: LessonData | undefined;
  /** A link's range ends here, programme seconds. */
  #stopAt: number | undefined;

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#data = JSON.parse(this.querySelector('script[type="application/json"]')?.textContent ?? 'null') ?? undefined;
    const data = this.#data;
    if (!data?.plan.files.length) return;
    this.#current = new CurrentStep(this, data);
    this.#corrections = new CorrectionCards(this, data);
    const listen: Scope['listen'] = (...on) => this.#scope.listen(...on);
    listen(document, 'click', (event) => this.#clicked(event));
    listen(window, 'hashchange', () => this.#followLink());
    listen(this, 'keydown', (event) => this.#pressed(event));
    listen(
      document,
      'keydown',
      (event) => settings.keysEverywhere && !this.contains(event.target as Node) && this.#pressed(event),
    );
    const native = this.querySelector('video');
    if (native) listen(native, 'play', () => this.#open().then((player) => player.play()));
    if (!this.#followLink()) this.#whenIdle(() => this.#open());
  }

  disconnectedCallback(): void {
    this.#scope.end();
    this.#player?.close();
    this.#player = undefined;
    this.#opening = undefined;
  }

  /** @param start programme seconds of the first frame, where the player is not open yet */
  #open(start?: number): Promise<Player> {
    this.#opening ??= this.#load(start);
    return this.#opening;
  }

  async #load(start?: number): Promise<Player> {
    const data = this.#data as LessonData;
    const { openPlayer } = await import('./open-player.ts');
    const host = this.querySelector<HTMLElement>('.picture') ?? this;
    const player = await openPlayer(host, data, start ?? this.#nativePosition(data));
    this.#player = player;
    this.#corrections?.moveInto(player.element);
    for (const type of ['timeupdate', 'seeked'] as const)
      player.on(type, () => {
        this.#current?.show(player.time, !player.paused);
        this.#corrections?.show(player.time);
        if (this.#stopAt !== undefined && player.time >= this.#stopAt && !player.paused) {
          this.#stopAt = undefined;
          player.pause();
        }
      });
    this.#current?.show(player.time, false);
    this.#corrections?.show(player.time);
    this.classList.add('open');
    for (const key of this.querySelectorAll<HTMLButtonElement>('.step-keys button')) key.disabled = false;
    return player;
  }

  /** Where the plain video was, in programme seconds: it shows the first camera file, uncut. */
  #nativePosition({ plan }: LessonData): number {
    const native = this.querySelector('video');
    if (!native || native.currentTime === 0) return 0;
    native.pause();
    const { files, kept } = planFromJson(plan);
    const start = files[0]?.recording.start ?? 0;
    return toSeconds(toProgramme(kept, ticks(start + fromSeconds(native.currentTime))).at);
  }

  #clicked(event: Event): void {
    const { target } = event;
    if (!(target instanceof Element) || !(event instanceof MouseEvent)) return;
    const button = target.closest<HTMLElement>('[data-action]');
    if (button && this.contains(button)) {
      this.#do(button.dataset.action as KeyAction);
      return;
    }
    const link = target.closest<HTMLAnchorElement>('a[data-part]');
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    this.#choose(link.dataset.part ?? '', true);
  }

  /** Goes to a chapter or step and plays it. */
  #choose(id: string, play: boolean): boolean {
    const part = [...(this.#data?.steps ?? []), ...(this.#data?.chapters ?? [])].find((each) => each.id === id);
    if (!part || part.end <= part.start) return false;
    history.replaceState(null, '', `#${id}`);
    this.#goTo(part.start, play);
    return true;
  }

  async #goTo(seconds: number, play: boolean, stopAt?: number): Promise<void> {
    const opened = this.#player === undefined && this.#opening === undefined;
    const player = await this.#open(seconds);
    this.#stopAt = stopAt;
    if (!opened) player.time = seconds;
    this.#current?.show(seconds, false);
    // A browser that wants a gesture first leaves the picture standing on the right frame.
    if (play) await player.play().catch(() => {});
  }

  /** Follows `?play=step`, `#step-id` and `#t=` in the address; false when there is none of them. */
  #followLink(): boolean {
    const hash = location.hash.slice(1);
    const address = new URL(location.href);
    const wanted = address.searchParams.get('play');
    if (wanted !== null) {
      address.searchParams.delete('play');
      history.replaceState(null, '', address);
      if (this.#choose(wanted, true)) return true;
    }
    const fragment = parseFragment(hash);
    if (fragment) {
      this.#goTo(toSeconds(fragment.start), false, fragment.end && toSeconds(fragment.end));
      return true;
    }
    return hash !== '' && this.#choose(decodeURIComponent(hash), false);
  }

  #pressed(event: Event): void {
    const action = event instanceof KeyboardEvent ? actionOf(event) : undefined;
    if (!action) return;
    event.preventDefault();
    this.#do(action);
  }

  async #do(action: KeyAction): Promise<void> {
    if (action === 'help') return this.querySelector<HTMLDialogElement>('dialog')?.showModal();
    const player = await this.#open();
    const data = this.#data as LessonData;
    const frame = frameSeconds(data);
    const to = (seconds: number) => {
      this.#stopAt = undefined;
      player.time = Math.min(Math.max(0, seconds), player.duration);
    };
    const step = (places: number) => {
      const found = neighbour(data.steps, player.time, frame, places);
      if (found) this.#choose(found.id, !player.paused || places === 0);
    };
    const work: Readonly<Record<Exclude<KeyAction, 'help'>, () => void>> = {
      toggle: () => (player.paused ? player.play().catch(() => {}) : player.pause()),
      back: () => to(player.time - LEAP),
      on: () => to(player.time + LEAP),
      'frame-back': () => to(player.time - frame),
      'frame-on': () => to(player.time + frame),
      previous: () => step(-1),
      again: () => step(0),
      next: () => step(1),
      slower: () => this.#speed(player, -1),
      faster: () => this.#speed(player, 1),
      captions: () => player.toggleCaptions(),
      'full-screen': () => player.toggleFullScreen(),
    };
    work[action]();
  }

  async #speed(player: Player, places: number): Promise<void> {
    const { SPEEDS } = await import('./open-player.ts');
    player.speed = SPEEDS[SPEEDS.indexOf(player.speed) + places] ?? player.speed;
  }

  #whenIdle(work: () => void): void {
    if (typeof requestIdleCallback === 'function') {
      const handle = requestIdleCallback(work, { timeout: 3000 });
      this.#scope.onEnd(() => cancelIdleCallback(handle));
    } else this.#scope.after(1000, work);
  }
}

customElements.define('lesson-player', LessonPlayer);
