import '../page/within-policy.ts';
import { planFromJson } from '../../core/programme/index.ts';
import { fromSeconds, parseFragment, ticks, toProgramme, toSeconds } from '../../core/time/index.ts';
import { Scope } from '../page/scope.ts';
import { t } from '../page/words.ts';
import { beginFilm, firstSeen } from './begin-film.ts';
import { CONNECTION_LOST } from './connection-lost.ts';
import { CorrectionCards } from './correction-cards.ts';
import { CurrentStep } from './current-step.ts';
import { FullView, type FullViewKind } from './full-view.ts';
import { HandsFree, type Played } from './hands-free.ts';
import { actionOf, type KeyAction } from './keys.ts';
import { frameSeconds, type LessonData, neighbour, partAt, type TimedPart } from './lesson-data.ts';
import { bindMediaKeys, nameWhatPlays } from './media-keys.ts';
import type { Player } from './open-player.ts';
import type { ProgrammeMedia } from './programme-media.ts';
import { keepPlace, placeToResume } from './resume.ts';
import { settings } from './settings.ts';
import { keepPictureInSight } from './small-picture.ts';
import { SPEEDS } from './speeds.ts';
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
 * loaded before somebody wants to see it; then the programme takes the place of the plain video, at once, and its
 * controls come when its picture is there.
 */
export class LessonPlayer extends HTMLElement {
  #scope = new Scope();
  #film: ProgrammeMedia | undefined;
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
    if (box)
      this.#transcript = new Transcript(box, scope, (seconds) => this.#goTo(seconds, this.#film?.paused === false));
    keepPictureInSight(stage, scope);
    scope.listen(document, 'click', (event) => this.#clicked(event));
    scope.listen(window, 'hashchange', () => this.#followLink());
    // Before the player's own controls see it: they keep to themselves what they do not use.
    scope.listen(document, 'keydown', (event) => this.#pressed(event), { capture: true });
    const native = this.querySelector('video');
    if (native) scope.listen(native, 'play', () => this.#begin(this.#nativePosition(data), true));
    this.classList.add('ready');
    if (!this.#followLink()) this.#offerToResume(data);
  }

  disconnectedCallback(): void {
    this.#scope.end();
    this.#player?.close();
    this.#film?.dispose();
    this.#player = undefined;
    this.#film = undefined;
    this.#opening = undefined;
  }

  /**
   * The film, shown over the curtain from the first call on.
   *
   * @param start programme seconds of the first frame, where it is not there yet
   * @param play it also plays, where it is not there yet
   */
  #begin(start = 0, play = false): ProgrammeMedia {
    if (this.#film) return this.#film;
    const data = this.#data as LessonData;
    this.#film = beginFilm(this.#picture, data, { start, play, listen: (film) => this.#listen(film, data) });
    bindMediaKeys((action) => this.#do(action));
    this.#open().catch(() => {});
    return this.#film;
  }

  #listen(film: ProgrammeMedia, data: LessonData): void {
    for (const type of ['timeupdate', 'seeked']) film.addEventListener(type, () => this.#moved(film, data));
    film.addEventListener('pause', () => this.#keepPlace(film, data));
    const words = this.querySelector<HTMLElement>('.player-words');
    film.addEventListener('lost', () => words && Object.assign(words, { textContent: CONNECTION_LOST }));
    film.addEventListener('found', () => words && Object.assign(words, { textContent: '' }));
  }

  get #picture(): HTMLElement {
    return this.querySelector<HTMLElement>('.picture') ?? this;
  }

  /** The film's controls. */
  #open(): Promise<Player> {
    if (this.#opening) return this.#opening;
    const opening = this.#load(this.#begin());
    this.#opening = opening;
    // Its script did not come: whoever asks next tries again, and the film plays meanwhile.
    opening.catch(() => {
      if (this.#opening === opening) this.#opening = undefined;
    });
    return opening;
  }

  async #load(film: ProgrammeMedia): Promise<Player> {
    const data = this.#data as LessonData;
    const scope = this.#scope;
    await firstSeen(film, scope);
    const { openPlayer } = await import('./open-player.ts');
    const host = this.#picture;
    const player = await openPlayer(host, data, film, () => this.#view?.toggle('screen'));
    if (scope.signal.aborted) {
      player.close();
      return player;
    }
    this.#player = player;
    player.fills(this.#view?.kind !== undefined);
    this.#corrections?.moveInto(player.element);
    this.#moved(film, data);
    this.classList.add('open');
    return player;
  }

  #moved(film: ProgrammeMedia, data: LessonData): void {
    const time = film.currentTime;
    this.dispatchEvent(new CustomEvent<ProgrammeMoved>('programme-moved', { detail: { time, playing: !film.paused } }));
    this.#current?.show(time, !film.paused);
    this.#corrections?.show(time);
    this.#transcript?.show(time, frameSeconds(data));
    if (this.#repeated && time >= this.#repeated.end && !film.paused) film.currentTime = this.#repeated.start;
    else if (this.#stopAt !== undefined && time >= this.#stopAt && !film.paused) {
      // A picture comes only every quarter of a second: what is shown is still the last of the range.
      film.pause();
      film.currentTime = Math.max(0, this.#stopAt - frameSeconds(data));
      this.#stopAt = undefined;
    }
    const step = this.#current?.part;
    if (step && step.id !== this.#named) {
      this.#named = step.id;
      nameWhatPlays(step.title, data.title);
      this.#handsFree?.stepChanged();
    }
    if (Math.abs(time - this.#keptAt) >= KEEP_PLACE_EVERY && !film.paused) this.#keepPlace(film, data);
  }

  /** What hands-free work sees of this player. */
  get #played(): Played {
    const film = () => this.#film;
    const card = () => this.querySelector<HTMLElement>('[data-card]:not([hidden])');
    return {
      get paused() {
        return film()?.paused ?? true;
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
    const film = this.#begin();
    const frame = frameSeconds(data);
    const step = partAt(data.steps, film.currentTime, frame);
    if (step && step.end - film.currentTime < 3 * frame) return this.#do('next');
    this.#stopAt = step && this.#endToWaitAt(step);
    await film.play().catch(() => {});
  }

  /** Going to a step then plays it: the hands that would press Play hold tools. */
  get #handsAreBusy(): boolean {
    return this.#view?.kind === 'bench' || this.#handsFree?.waitsAfterSteps === true;
  }

  #endToWaitAt({ end }: TimedPart): number | undefined {
    return this.#handsFree?.waitsAfterSteps ? end : undefined;
  }

  #keepPlace({ currentTime, duration }: ProgrammeMedia, { id }: LessonData): void {
    this.#keptAt = currentTime;
    keepPlace(id, currentTime, duration);
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
    native?.pause();
    if (!native || native.currentTime === 0) return 0;
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
    const before = this.#film;
    // A browser that wants a gesture first leaves the picture standing on the right frame.
    const film = this.#begin(seconds, play);
    this.#stopAt = stopAt;
    if (before) film.currentTime = seconds;
    this.#current?.show(seconds, false);
    if (before && play) await film.play().catch(() => {});
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
    const playing = this.#film?.paused === false;
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
    // The first word to it starts it.
    if (action === 'toggle' && !this.#film) return void this.#begin(0, true);
    const film = this.#begin();
    const frame = frameSeconds(data);
    const to = (seconds: number) => {
      this.#stopAt = undefined;
      film.currentTime = Math.min(Math.max(0, seconds), film.duration);
    };
    const step = (places: number) => {
      const found = neighbour(data.steps, film.currentTime, frame, places);
      if (found) this.#choose(found.id, !film.paused || places === 0 || this.#handsAreBusy);
    };
    const work: Readonly<
      Record<Exclude<KeyAction, 'help' | 'aloud' | 'listen' | 'full-screen' | 'bench'>, () => unknown>
    > = {
      toggle: () => (film.paused ? film.play().catch(() => {}) : film.pause()),
      back: () => to(film.currentTime - LEAP),
      on: () => to(film.currentTime + LEAP),
      'frame-back': () => to(film.currentTime - frame),
      'frame-on': () => to(film.currentTime + frame),
      previous: () => step(-1),
      again: () => step(0),
      next: () => step(1),
      repeat: () => this.#repeat(this.#repeated ? undefined : partAt(data.steps, film.currentTime, frame)),
      slower: () => this.#speed(film, -1),
      faster: () => this.#speed(film, 1),
      captions: async () => (await this.#open()).toggleCaptions(),
      link: () => this.#linkTo(film.currentTime),
      'small-window': () => this.#toggleSmallWindow(film),
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

  #speed(film: ProgrammeMedia, places: number): void {
    film.playbackRate = SPEEDS[SPEEDS.indexOf(film.playbackRate) + places] ?? film.playbackRate;
  }

  /** The picture in a small window of its own, over other programs, where the browser can. */
  #toggleSmallWindow({ video }: ProgrammeMedia): void {
    if (document.pictureInPictureElement) document.exitPictureInPicture().catch(() => {});
    else video.requestPictureInPicture?.().catch(() => {});
  }
}

customElements.define('lesson-player', LessonPlayer);
