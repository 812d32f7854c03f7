import type { Scope } from '../page/scope.ts';
import { t } from '../page/words.ts';
import { ReadAloud, StayAwake } from './bench.ts';
import type { FullViewKind } from './full-view.ts';
import type { KeyAction } from './keys.ts';
import type { Listening } from './listen.ts';
import type { SpokenCommand } from './spoken-words.ts';

/** What hands-free work needs of the player. */
export interface Played {
  readonly paused: boolean;
  /** The card of the step that plays. */
  readonly card: HTMLElement | null;
  do(action: KeyAction): void;
  /** Plays on, to the end of the step. */
  playStep(): void;
}

/** For work with dirty hands: the screen stays on, steps are read aloud, a few spoken words are obeyed. */
export class HandsFree {
  readonly #host: HTMLElement;
  readonly #played: Played;
  readonly #awake: StayAwake;
  readonly #aloud = new ReadAloud();
  readonly #scope: Scope;
  #listening: Listening | undefined;

  /** @param host the player, whose keys `aloud` and `listen` are shown where the browser can do it */
  constructor(host: HTMLElement, scope: Scope, played: Played) {
    this.#host = host;
    this.#played = played;
    this.#scope = scope;
    this.#awake = new StayAwake(scope);
    scope.onEnd(() => this.#aloud.stop());
    if (this.#aloud.available) this.#reveal('aloud');
    // Nobody sees the key before the menu is open, and no script for it is fetched before.
    const menu = host.querySelector('#more-keys');
    if (menu) scope.listen(menu, 'toggle', () => this.#offerToListen(), { once: true });
  }

  /** A listener at a bench hears only what the film leaves room for: each step then plays to its end and waits. */
  get waitsAfterSteps(): boolean {
    return this.#listening?.on === true;
  }

  viewChanged(kind: FullViewKind | undefined): void {
    this.#awake.set(kind === 'bench');
    this.#press('bench', kind === 'bench');
    if (kind !== undefined) return;
    if (this.#aloud.on) this.toggleAloud();
    if (this.#listening?.on) this.toggleListening();
  }

  stepChanged(): void {
    if (this.#aloud.on) this.#aloud.say(this.#played.card);
  }

  toggleAloud(): void {
    this.#aloud.on = !this.#aloud.on;
    this.#press('aloud', this.#aloud.on);
    if (this.#aloud.on) this.#aloud.say(this.#played.card);
    else this.#aloud.stop();
  }

  async toggleListening(): Promise<void> {
    if (this.#listening?.on) this.#listening.stop();
    else {
      this.#listening ??= await this.#listener();
      this.#listening?.start();
      if (!this.#listening) return;
    }
    this.#press('listen', this.waitsAfterSteps);
    this.#tell(
      this.waitsAfterSteps
        ? t('Say: {words}. The sound stays on this device.', { words: this.#listening.words.join(', ') })
        : '',
    );
  }

  async #offerToListen(): Promise<void> {
    const { mayHear } = await import('./listen.ts');
    if (mayHear(document.documentElement.lang)) this.#reveal('listen');
  }

  /** Only where the browser understands words on the device itself. */
  async #listener(): Promise<Listening | undefined> {
    const { hearsHere, Listening } = await import('./listen.ts');
    const language = document.documentElement.lang;
    if (!(await hearsHere(language))) {
      this.#tell(t('This browser does not understand spoken words on this device itself. Nothing is sent elsewhere.'));
      return undefined;
    }
    return new Listening(
      language,
      this.#scope,
      (command) => this.#obey(command),
      (why) => {
        this.#press('listen', false);
        this.#tell(why);
      },
    );
  }

  #obey(command: SpokenCommand): void {
    const { paused } = this.#played;
    if (command === 'values') this.#aloud.say(this.#played.card);
    else if (command === 'pause') {
      this.#aloud.stop();
      if (!paused) this.#played.do('toggle');
    } else if (command === 'play') {
      if (paused) this.#played.playStep();
    } else this.#played.do(command);
  }

  #reveal(action: KeyAction): void {
    const key = this.#host.querySelector<HTMLElement>(`[data-action=${action}]`);
    if (key) key.hidden = false;
  }

  #press(action: KeyAction, pressed: boolean): void {
    this.#host.querySelector(`[data-action=${action}]`)?.setAttribute('aria-pressed', String(pressed));
  }

  #tell(words: string): void {
    const place = this.#host.querySelector<HTMLElement>('.player-words');
    if (place) place.textContent = words;
  }
}
