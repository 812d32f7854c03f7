import '../page/within-policy.ts';
import { planFromJson } from '../../core/programme/index.ts';
import { fromSeconds, parseFragment, ticks, toProgramme, toSeconds } from '../../core/time/index.ts';
import { Scope } from '../page/scope.ts';
import { t } from '../page/words.ts';
import { CONNECTION_LOST } from './connection-lost.ts';
import { CorrectionCards } from './correction-cards.ts';
import { CurrentStep } from './current-step.ts';
import { FullView, type FullViewKind } from './full-view.ts';
import { HandsFree, type Played } from './hands-free.ts';
import { actionOf, type KeyAction } from './keys.ts';
import { frameSeconds, type LessonData, neighbour, partAt, type TimedPart } from './lesson-data.ts';
import { bindMediaKeys, nameWhatPlays } from './media-keys.ts';
import type { Player } from './open-player.ts';
import { keepPlace, placeToResume } from './resume.ts';
import { settings } from './settings.ts';
import { keepPictureInSight } from './small-picture.ts';
import { Transcript } from './transcript.ts';

/** How far an arrow key goes, seconds. */
const LEAP = 5;
/** The place is kept each time the programme has moved so far, seconds. */
const KEEP_PLACE_EVERY = 5;

/** Told by the player with each move of the programme. */
export interface ProgrammeMoved {
  /** Programme seconds. */
  readonly time: number;
  readonly playing: boolean;
}

/**
 * The lesson's player: the page is complete without it (a plain video, links to the moments). Nothing of the film is
 * loaded before somebody wants to see it; then the programme takes the place of the plain video.
 */
export class LessonPlayer extends HTMLElement {
  #scope = new Scope();
  #opening: Promise<Player> | undefined;
  #player: Player | undefined;
  #data: LessonData | undefined;
  #current: CurrentStep | undefined;
  #corrections: CorrectionCards | undefined;
  #transcript: Transcript | undefined;
  #view: FullView | undefined;
  #handsFree: HandsFree | undefined;
  /** A link's range ends here, programme seconds. */
  #stopAt: number | undefined;
  #repeated: TimedPart | undefined;
  #keptAt = 0;
  #named: string | undefined;
  #goOnAt = 0;

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#data = JSON.parse(this.querySelector('script[type="application/json"]')?.textContent ?? 'null') ?? undefined;
    const data = this.#data;
    const stage = this.querySelector<HTMLElement>('.stage');
    if (!data?.plan.files.length || !stage) return;
    const scope = this.#scope;
    this.#current = new CurrentStep(this, data, scope);
    this.#corrections = new CorrectionCards(this, data);
    this.#view = new FullView(stage, this.querySelector('.cards'), scope, (kind) => this.#viewChanged(kind));
    this.#handsFree = new HandsFree(this, scope, this.#played);
    const box = this.querySelector<HTMLElement>('.transcript');
    if (box) this.#transcript = new Transcript(box, scope, (seconds) => this.#goTo(seconds, !this.#player?.paused));
    keepPictureInSight(stage, scope);
    scope.listen(document, 'click', (event) => this.#clicked(event));
    scope.listen(window, 'hashchange', () => this.#followLink());
    // Before the player's own controls see it: they keep to themselves what they do not use.
    scope.listen(document, 'keydown', (event) => this.#pressed(event), { capture: true });
    const native = this.querySelector('video');
    if (native) scope.listen(native, 'play', () => this.#open().then((player) => player.play()));
    this.classList.add('ready');
    if (!this.#followLink()) this.#offerToResume(data);
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
    const hadFocus = host.contains(document.activeElement);
    const player = await openPlayer(host, data, start ?? this.#nativePosition(data), () =>
      this.#view?.toggle('screen'),
    );
    this.#player = player;
    if (hadFocus) player.focus();
    this.#corrections?.moveInto(player.element);
    for (const type of ['timeupdate', 'seeked'] as const) player.on(type, () => this.#moved(player, data));
    player.on('pause', () => this.#keepPlace(player, data));
    const words = this.querySelector<HTMLElement>('.player-words');
    player.on('lost', () => {
      if (words) words.textContent = CONNECTION_LOST;
    });
    player.on('found', () => {
      if (words) words.textContent = '';
    });
    bindMediaKeys((action) => this.#do(action));
    this.#moved(player, data);
    this.classList.add('open');
    return player;
  }

  #moved(player: Player, data: LessonData): void {
    const { time } = player;
    this.dispatchEvent(
      new CustomEvent<ProgrammeMoved>('programme-moved', { detail: { time, playing: !player.paused } }),
    );
    this.#current?.show(time, !player.paused);
    this.#corrections?.show(time);
    this.#transcript?.show(time, frameSeconds(data));
    if (this.#repeated && time >= this.#repeated.end && !player.paused) player.time = this.#repeated.start;
    else if (this.#stopAt !== undefined && time >= this.#stopAt && !player.paused) {
      // A picture comes only every quarter of a second: what is shown is still the last of the range.
      player.pause();
      player.time = Math.max(0, this.#stopAt - frameSeconds(data));
      this.#stopAt = undefined;
    }
    const step = this.#current?.part;
    if (step && step.id !== this.#named) {
      this.#named = step.id;
      nameWhatPlays(step.title, data.title);
      this.#handsFree?.stepChanged();
    }
    if (Math.abs(time - this.#keptAt) >= KEEP_PLACE_EVERY && !player.paused) this.#keepPlace(player, data);
  }

  /** What hands-free work sees of this player. */
  get #played(): Played {
    const player = () => this.#player;
    const card = () => this.querySelector<HTMLElement>('[data-card]:not([hidden])');
    return {
      get paused() {
        return player()?.paused ?? true;
      },
      get card() {
        return card();
      },
      do: (action) => this.#do(action),
      playStep: () => this.#playStep(),
    };
  }

  /** Plays on, to the end of the step; where the step has ended, the next one. */
  async #playStep(): Promise<void> {
    const data = this.#data as LessonData;
    const player = await this.#open();
    const frame = frameSeconds(data);
    const step = partAt(data.steps, player.time, frame);
    if (step && step.end - player.time < 3 * frame) return this.#do('next');
    this.#stopAt = step && this.#endToWaitAt(step);
    await player.play().catch(() => {});
  }

  /** Going to a step then plays it: the hands that would press Play hold tools. */
  get #handsAreBusy(): boolean {
    return this.#view?.kind === 'bench' || this.#handsFree?.waitsAfterSteps === true;
  }

  #endToWaitAt({ end }: TimedPart): number | undefined {
    return this.#handsFree?.waitsAfterSteps ? end : undefined;
  }

  #keepPlace(player: Player, { id }: LessonData): void {
    this.#keptAt = player.time;
    keepPlace(id, player.time, player.duration);
  }

  #offerToResume({ id, length }: LessonData): void {
    const seconds = placeToResume(id, length);
    if (seconds !== undefined) this.offerToGoOn(seconds);
  }

  /** Offers to go on from where somebody was. @param seconds of the programme */
  offerToGoOn(seconds: number): void {
    const button = this.querySelector<HTMLButtonElement>('[data-resume]');
    if (!button || !this.#data) return;
    this.#goOnAt = seconds;
    const step = partAt(this.#data.steps, seconds, 0);
    const words = button.querySelector('span');
    if (words) words.textContent = step?.title ?? t('before the first step');
    if (button.hidden) this.#scope.listen(button, 'click', () => this.#goTo(this.#goOnAt, true));
    button.hidden = false;
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
      event.preventDefault();
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
    this.#current?.follow();
    if (this.#repeated) this.#repeat(part);
    this.#goTo(part.start, play, this.#endToWaitAt(part));
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

  /** Follows `?play=step`, `#play`, `#step-id` and `#t=` in the address; false when there is none of them. */
  #followLink(): boolean {
    const hash = location.hash.slice(1);
    const address = new URL(location.href);
    const wanted = address.searchParams.get('play');
    if (wanted !== null) {
      address.searchParams.delete('play');
      history.replaceState(null, '', address);
      if (this.#choose(wanted, true)) return true;
    }
    if (hash === 'play') {
      this.#goTo(0, true);
      return true;
    }
    const fragment = parseFragment(hash);
    if (fragment) {
      this.#goTo(toSeconds(fragment.start), false, fragment.end && toSeconds(fragment.end));
      return true;
    }
    return hash !== '' && this.#choose(decodeURIComponent(hash), false);
  }

  /** Keys belong to the player while the focus is in it or it fills the screen; Space and K also while it plays. */
  #pressed(event: Event): void {
    const action = event instanceof KeyboardEvent ? actionOf(event) : undefined;
    if (!action) return;
    const playing = this.#player !== undefined && !this.#player.paused;
    const ours =
      settings.keysEverywhere ||
      this.#view?.kind !== undefined ||
      this.contains(event.target as Node) ||
      (action === 'toggle' && playing);
    if (!ours) return;
    event.preventDefault();
    event.stopPropagation();
    this.#do(action);
  }

  async #do(action: KeyAction): Promise<void> {
    if (action === 'help') return this.querySelector<HTMLDialogElement>('dialog')?.showModal();
    if (action === 'aloud') return this.#handsFree?.toggleAloud();
    if (action === 'listen') return this.#handsFree?.toggleListening();
    // Before anything is waited for: a browser lets only the gesture itself fill the screen.
    if (action === 'full-screen') return this.#view?.toggle('screen');
    if (action === 'bench') return this.#view?.toggle('bench');
    const data = this.#data as LessonData;
    const player = await this.#open();
    const frame = frameSeconds(data);
    const to = (seconds: number) => {
      this.#stopAt = undefined;
      player.time = Math.min(Math.max(0, seconds), player.duration);
    };
    const step = (places: number) => {
      const found = neighbour(data.steps, player.time, frame, places);
      if (found) this.#choose(found.id, !player.paused || places === 0 || this.#handsAreBusy);
    };
    const work: Readonly<
      Record<Exclude<KeyAction, 'help' | 'aloud' | 'listen' | 'full-screen' | 'bench'>, () => unknown>
    > = {
      toggle: () => (player.paused ? player.play().catch(() => {}) : player.pause()),
      back: () => to(player.time - LEAP),
      on: () => to(player.time + LEAP),
      'frame-back': () => to(player.time - frame),
      'frame-on': () => to(player.time + frame),
      previous: () => step(-1),
      again: () => step(0),
      next: () => step(1),
      repeat: () => this.#repeat(this.#repeated ? undefined : partAt(data.steps, player.time, frame)),
      slower: () => this.#speed(player, -1),
      faster: () => this.#speed(player, 1),
      captions: () => player.toggleCaptions(),
      link: () => this.#linkTo(player.time),
      'small-window': () => player.toggleSmallWindow(),
    };
    await work[action]();
  }

  #repeat(part: TimedPart | undefined): void {
    this.#repeated = part;
    this.#press('repeat', part !== undefined);
  }

  #press(action: KeyAction, pressed: boolean): void {
    this.querySelector(`[data-action=${action}]`)?.setAttribute('aria-pressed', String(pressed));
  }

  async #linkTo(seconds: number): Promise<void> {
    const address = new URL(location.href);
    address.hash = `t=${seconds.toFixed(1)}`;
    const words = this.querySelector<HTMLElement>('.player-words');
    const copied = await navigator.clipboard?.writeText(address.href).then(
      () => true,
      () => false,
    );
    if (words) words.textContent = copied ? t('Link to this moment copied.') : address.href;
  }

  #viewChanged(kind: FullViewKind | undefined): void {
    this.#handsFree?.viewChanged(kind);
    this.#player?.fills(kind !== undefined);
  }

  async #speed(player: Player, places: number): Promise<void> {
    const { SPEEDS } = await import('./open-player.ts');
    player.speed = SPEEDS[SPEEDS.indexOf(player.speed) + places] ?? player.speed;
  }
}

customElements.define('lesson-player', LessonPlayer);
