import type { Scope } from '../page/scope.ts';

/**
 * How waiting for a picture ended: `overtaken` when another place was asked for meanwhile, `elsewhere` when the element
 * shows another moment than the one asked for, as behind a server that cannot send a part of a file.
 */
export type StandBy = 'ready' | 'overtaken' | 'failed' | 'elsewhere';

/** So far may the picture lie from the place asked for: a file may be a frame or two shorter than it was measured. */
const ASTRAY_SECONDS = 0.5;

/** One video element that is either on air or standing by at the place where it will go on air. */
export class Deck {
  readonly element: HTMLVideoElement;
  #url = '';
  #wanted = 0;
  /** Counts the places asked for, so that an overtaken wait knows it was overtaken. */
  #asked = 0;

  constructor() {
    this.element = document.createElement('video');
    this.element.playsInline = true;
    // Nothing but what one picture takes, until playing is wanted.
    this.element.preload = 'metadata';
    // The player is one control; the elements inside it are not to be reached one by one.
    this.element.tabIndex = -1;
    this.element.setAttribute('aria-hidden', 'true');
  }

  get url(): string {
    return this.#url;
  }

  /** Where it is or will be, seconds from the start of its file. */
  get position(): number {
    return this.ready ? this.element.currentTime : this.#wanted;
  }

  /** True when the picture at the wanted place is there. */
  get ready(): boolean {
    return this.element.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && !this.element.seeking;
  }

  /**
   * Takes up a file at a place and waits until its picture is there.
   *
   * @param seconds from the start of the file
   */
  async standBy(url: string, seconds: number, scope: Scope): Promise<StandBy> {
    const asked = ++this.#asked;
    this.#wanted = seconds;
    const { element } = this;
    if (this.#url !== url || element.error) {
      this.#url = url;
      element.src = url;
    }
    const waitFor = async (...types: string[]) => (await this.#until(types, scope)) && asked === this.#asked;
    const reason = () => (asked === this.#asked ? 'failed' : 'overtaken');
    if (element.readyState < HTMLMediaElement.HAVE_METADATA && !(await waitFor('loadedmetadata'))) return reason();
    const [began, playing] = [performance.now(), !element.paused];
    if (Math.abs(element.currentTime - seconds) > 1e-4) element.currentTime = seconds;
    while (!this.ready) if (!(await waitFor('seeked', 'loadeddata', 'canplay'))) return reason();
    // A film that plays runs on while a busy page only gets to look: so far ahead it may be by itself.
    const ran = playing ? ((performance.now() - began) / 1000) * element.playbackRate : 0;
    const ahead = element.currentTime - seconds;
    return ahead < -ASTRAY_SECONDS || ahead > ran + ASTRAY_SECONDS ? 'elsewhere' : 'ready';
  }

  /** What is waited for comes no more; the next place asked for loads its file anew. */
  forget(): void {
    this.#asked += 1;
    this.#url = '';
  }

  /** The picture this deck shows is the one the viewer sees. */
  putOnAir(onAir: boolean): void {
    this.element.toggleAttribute('data-on-air', onAir);
  }

  dispose(): void {
    this.element.pause();
    this.element.removeAttribute('src');
    this.element.load();
    this.element.remove();
  }

  /** The first of the events; false when the element fails, is emptied, or the scope ends. */
  #until(types: readonly string[], scope: Scope): Promise<boolean> {
    return new Promise((resolve) => {
      const stop = new AbortController();
      const on = (target: EventTarget, type: string, good: boolean) =>
        target.addEventListener(
          type,
          () => {
            stop.abort();
            resolve(good);
          },
          { signal: stop.signal },
        );
      for (const type of types) on(this.element, type, true);
      on(this.element, 'error', false);
      on(scope.signal, 'abort', false);
    });
  }
}
