import {
  filePosition,
  type PlayPiece,
  type PlayPlan,
  pieceAt,
  piecesByOpening,
  playLength,
  playPieces,
  programmeMoment,
} from '../../core/programme/index.ts';
import { fromSeconds, lengthOf, type Range, range, type Ticks, ticks, toSeconds } from '../../core/time/index.ts';
import { Scope } from '../page/scope.ts';
import { Deck, type StandBy } from './deck.ts';
import { failureOf, hindrance, type MediaFailure, WRONG_PLACE } from './media-failure.ts';

/** Events of the element on air that are passed on as they are. */
export const RELAYED = [
  'canplay',
  'canplaythrough',
  'progress',
  'stalled',
  'suspend',
  'waiting',
  'playing',
  'timeupdate',
];

/** After the connection is lost, it is tried again so often, milliseconds; and at once when the browser is online again. */
const RETRY_MS = 3000;
/** A picture that has not come for so long is asked after, milliseconds. */
const PATIENCE_MS = 4000;

/**
 * Plays a plan on the programme's clock, with the events of a media element. Two decks take turns: while one is
 * on air, the other stands by with the first frame of the next piece. So a cut inside a file and the step from one
 * camera file to the next are the same thing, and neither waits for loading. Where the index of a file has not come yet,
 * a short copy of its stretch, an opening, goes on air first, and the file takes over from it.
 */
export class ProgrammeMedia extends EventTarget {
  readonly element: HTMLElement;
  /** Why a file could not be played. A lost connection is no failure: `lost` is told, and it goes on by itself. */
  error: MediaFailure | undefined;
  readonly #scope = new Scope();
  readonly #decks: readonly [Deck, Deck] = [new Deck(), new Deck()];
  #onAir = 0;
  #source: PlayPlan = { files: [], kept: [] };
  /** The source's, its openings after its files. */
  #plan: PlayPlan = this.#source;
  /** Without openings. */
  #whole: readonly PlayPiece[] = [];
  #pieces: readonly PlayPiece[] = [];
  #piece = -1;
  #paused = true;
  #ended = false;
  #target: Ticks<'programme'> | undefined;
  #switching = false;
  #stopTimer = () => {};
  #reported = false;
  #muted = false;
  /** Where to go on when the connection is back. */
  #lostAt: Ticks<'programme'> | undefined;

  constructor() {
    super();
    this.element = document.createElement('div');
    this.element.className = 'decks';
    for (const [position, { element }] of this.#decks.entries()) {
      this.element.append(element);
      for (const type of RELAYED)
        this.#scope.listen(element, type, () => this.#isQuietlyOnAir(position) && this.#tell(type));
      this.#scope.listen(element, 'error', () => this.#isQuietlyOnAir(position) && this.#fail(element, 'failed'));
      this.#scope.listen(element, 'ended', () => this.#isQuietlyOnAir(position) && this.#advance());
      this.#scope.listen(
        element,
        'pause',
        () => this.#isQuietlyOnAir(position) && element.paused && !element.ended && this.#adopt(true),
      );
      this.#scope.listen(
        element,
        'play',
        () => this.#isQuietlyOnAir(position) && !element.paused && this.#adopt(false),
      );
      this.#scope.listen(element, 'timeupdate', () => position === this.#onAir && this.#watch());
    }
    this.#decks[0].putOnAir(true);
    this.#setSound();
    this.#scope.listen(window, 'online', () => this.#tryAgain());
  }

  get #deck(): Deck {
    return this.#decks[this.#onAir === 0 ? 0 : 1];
  }

  get #standby(): Deck {
    return this.#decks[this.#onAir === 0 ? 1 : 0];
  }

  /** The video element the viewer sees. */
  get video(): HTMLVideoElement {
    return this.#deck.element;
  }

  /**
   * Takes up a plan and shows a frame of it.
   *
   * @param seconds of the programme
   */
  load(plan: PlayPlan, seconds = 0): void {
    this.#source = plan;
    this.#plan = { ...plan, files: [...plan.files, ...(plan.openings ?? [])] };
    this.#whole = playPieces(plan);
    this.#pieces = this.#whole;
    this.#piece = -1;
    this.#ended = false;
    this.#tell('loadstart');
    this.#tell('durationchange');
    this.#goTo(this.#within(seconds));
  }

  /** Tells whoever listens only now how things stand. */
  tellAgain(): void {
    this.#tell('loadstart');
    this.#tell('durationchange');
    if (this.#reported) this.#tellPicture();
    if (!this.#paused) this.#tell('play');
    if (!this.#paused) this.#tell(this.#target === undefined && this.#deck.ready ? 'playing' : 'waiting');
    if (this.#lostAt !== undefined) this.#tell('lost');
    if (this.error) this.#tell('error');
  }

  #tellPicture(): void {
    for (const type of ['loadedmetadata', 'loadeddata', 'canplay']) this.#tell(type);
  }

  /** Programme length, seconds. */
  get duration(): number {
    return toSeconds(playLength(this.#plan));
  }

  /** Programme seconds. */
  get currentTime(): number {
    return toSeconds(this.#moment);
  }

  set currentTime(seconds: number) {
    this.#ended = false;
    this.#lostAt = undefined;
    this.#tell('seeking');
    this.#goTo(this.#within(seconds));
  }

  #within(seconds: number): Ticks<'programme'> {
    return fromSeconds(Math.min(Math.max(0, seconds), this.duration));
  }

  get #moment(): Ticks<'programme'> {
    const piece = this.#pieces[this.#piece];
    if (this.#target !== undefined || !piece) return this.#target ?? ticks(0);
    if (this.#ended) return piece.programme.end;
    return programmeMoment(this.#plan, piece, this.#deck.position);
  }

  get paused(): boolean {
    return this.#paused;
  }

  get ended(): boolean {
    return this.#ended;
  }

  get seeking(): boolean {
    return this.#target !== undefined;
  }

  get volume(): number {
    return this.video.volume;
  }

  set volume(share: number) {
    for (const { element } of this.#decks) element.volume = share;
    this.#tell('volumechange');
  }

  get muted(): boolean {
    return this.#muted;
  }

  set muted(muted: boolean) {
    this.#muted = muted;
    this.#setSound();
    this.#tell('volumechange');
  }

  /** Only the deck on air is heard. */
  #setSound(): void {
    for (const [position, { element }] of this.#decks.entries())
      element.muted = this.#muted || position !== this.#onAir;
  }

  get playbackRate(): number {
    return this.video.playbackRate;
  }

  set playbackRate(rate: number) {
    for (const { element } of this.#decks) {
      element.defaultPlaybackRate = rate;
      element.playbackRate = rate;
    }
    this.#tell('ratechange');
    this.#watch();
  }

  /** What is loaded, in programme time, in order, touching pieces joined. */
  get buffered(): Range<'programme'>[] {
    const loaded: Range<'programme'>[] = [];
    for (const piece of this.#pieces) {
      const url = this.#plan.files[piece.file]?.url;
      for (const { url: deckUrl, element } of this.#decks) {
        if (deckUrl !== url) continue;
        for (let i = 0; i < element.buffered.length; i++) {
          const start = programmeMoment(this.#plan, piece, element.buffered.start(i));
          const end = programmeMoment(this.#plan, piece, element.buffered.end(i));
          if (end > start) loaded.push(range(start, end));
        }
      }
    }
    return union(loaded);
  }

  /** Rejects when the browser wants a gesture first. */
  async play(): Promise<void> {
    if (this.#ended) this.currentTime = 0;
    for (const { element, url } of this.#decks) {
      element.preload = 'auto';
      // Where only a gesture lets an element play, this lets both of them, for all that they will show.
      if (url === '') element.load();
    }
    if (this.#paused) {
      this.#paused = false;
      this.#tell('play');
    }
    if (this.#target !== undefined || !this.#pieces.length) return;
    this.#prepare();
    try {
      await this.video.play();
    } catch (reason) {
      // A pause or a seek that overtakes the start is no refusal.
      if (reason instanceof DOMException && reason.name === 'AbortError') return;
      this.#adopt(true);
      throw reason;
    }
  }

  pause(): void {
    const was = this.#paused;
    this.#paused = true;
    for (const { element } of this.#decks) element.pause();
    if (!was) this.#tell('pause');
  }

  dispose(): void {
    this.#stopTimer();
    this.#scope.end();
    for (const deck of this.#decks) deck.dispose();
    this.element.remove();
  }

  /** Shows the frame of a moment, then plays on if it was playing. */
  async #goTo(moment: Ticks<'programme'>): Promise<void> {
    this.#pieces = this.#piecesFor(moment);
    const position = pieceAt(this.#pieces, moment);
    const piece = this.#pieces[position];
    this.#target = moment;
    if (!piece) return;
    this.#stopTimer();
    const url = this.#plan.files[piece.file]?.url ?? '';
    // The deck that has the file already; a fresh one otherwise, so that the old picture stays until the new one is there.
    const target = this.#deck.url === url || this.#deck.url === '' ? this.#deck : this.#standby;
    if (target !== this.#deck) this.video.pause();
    const stopAsking = this.#askAfter(target, moment);
    const arrived = await target.standBy(url, filePosition(this.#plan, piece, moment), this.#scope);
    stopAsking();
    if (arrived === 'overtaken' || this.#target !== moment) return;
    if (arrived !== 'ready') {
      if (!this.#isOpening(piece) || this.#scope.signal.aborted) return this.#fail(target.element, arrived);
      // The film itself may be there all the same.
      this.#source = { ...this.#source, openings: [] };
      return this.#goTo(moment);
    }
    this.#found();
    this.#piece = position;
    if (target !== this.#deck) this.#swap();
    this.#target = undefined;
    if (!this.#reported) {
      this.#reported = true;
      this.#tellPicture();
    }
    this.#tell('seeked');
    this.#tell('timeupdate');
    this.#prepare();
    if (!this.#paused) await this.play().catch(() => {});
  }

  /** The runs to play from a moment on: through an opening, where its file is not at hand. */
  #piecesFor(moment: Ticks<'programme'>): readonly PlayPiece[] {
    const piece = this.#whole[pieceAt(this.#whole, moment)];
    const file = piece && this.#plan.files[piece.file];
    const atHand = this.#decks.some(
      ({ url, element }) => url === file?.url && element.readyState >= HTMLMediaElement.HAVE_METADATA,
    );
    return atHand ? this.#whole : piecesByOpening(this.#source, this.#whole, moment);
  }

  #isOpening(piece: PlayPiece | undefined): boolean {
    return piece !== undefined && piece.file >= this.#source.files.length;
  }

  /** The other deck takes up the first frame of the next piece. */
  #prepare(): void {
    // An opening comes first over a slow line: what follows it is asked for once it runs.
    if (this.#isOpening(this.#pieces[this.#piece]) && this.video.paused) return;
    const next = this.#pieces[this.#piece + 1];
    const url = next && this.#plan.files[next.file]?.url;
    if (next && url) this.#standby.standBy(url, filePosition(this.#plan, next, next.programme.start), this.#scope);
  }

  /**
   * Keeps the switch to the next piece in sight: by timer, set again with every report of the element on air,
   * because frame callbacks rest while the page is hidden.
   */
  #watch(): void {
    this.#stopTimer();
    const piece = this.#pieces[this.#piece];
    const file = piece && this.#plan.files[piece.file];
    if (!piece || !file || this.#paused || this.#switching || this.#target !== undefined) return;
    const follows = this.#plan.files[this.#pieces[this.#piece + 1]?.file ?? -1]?.url;
    if (this.#isOpening(piece) && follows !== undefined && this.#standby.url !== follows) this.#prepare();
    // A piece that ends with its file ends by the element's own word, so that its last sample is heard.
    if (piece.recording.end >= file.recording.end) return;
    const left = toSeconds(piece.recording.end - file.recording.start) - this.video.currentTime;
    const milliseconds = (left / this.video.playbackRate) * 1000;
    if (milliseconds <= 4) this.#advance();
    else if (milliseconds < 400) this.#stopTimer = this.#scope.after(milliseconds - 2, () => this.#watch());
  }

  /** The piece on air is over: the next one is shown at once, nothing of the cut is. */
  async #advance(): Promise<void> {
    if (this.#switching) return;
    const next = this.#pieces[this.#piece + 1];
    if (!next) return this.#finish();
    this.#switching = true;
    this.video.pause();
    const url = this.#plan.files[next.file]?.url ?? '';
    const start = filePosition(this.#plan, next, next.programme.start);
    if (!this.#standby.ready || this.#standby.url !== url) this.#tell('waiting');
    const arrived = await this.#standby.standBy(url, start, this.#scope);
    if (arrived !== 'ready' || this.#target !== undefined) {
      this.#switching = false;
      if (this.#target !== undefined || arrived === 'ready' || arrived === 'overtaken') return;
      this.#target = next.programme.start;
      return this.#fail(this.#standby.element, arrived);
    }
    this.#piece += 1;
    this.#swap();
    if (!this.#paused) await this.video.play().catch(() => this.#reuse(url, start));
    this.#switching = false;
    this.#tell('timeupdate');
    if (!this.#paused && this.#target === undefined) this.#tell('playing');
    if (this.#target === undefined) this.#prepare();
  }

  /** A browser lets only the deck play that the viewer has started: that deck goes on, with a short wait. */
  async #reuse(url: string, start: number): Promise<void> {
    this.#swap();
    if ((await this.#deck.standBy(url, start, this.#scope)) === 'ready' && !this.#paused)
      await this.video.play().catch(() => this.#adopt(true));
  }

  /** A lost connection keeps the place and goes on when it can; all else is told, and nothing plays. */
  async #fail(element: HTMLVideoElement, how: Exclude<StandBy, 'ready' | 'overtaken'>): Promise<void> {
    // Taken down, no film is waited for, and nobody is left to be told.
    if (this.#scope.signal.aborted) return;
    const moment = this.#moment;
    const failure = how === 'elsewhere' ? WRONG_PLACE : await failureOf(element);
    if (failure.why === 'connection') this.#lose(moment);
    else this.#stop(failure);
  }

  #stop(failure: MediaFailure): void {
    this.error = failure;
    this.#target = undefined;
    this.#lostAt = undefined;
    this.pause();
    this.#tell('error');
  }

  #lose(moment: Ticks<'programme'>): void {
    this.#target = moment;
    if (this.#lostAt === undefined) this.#tell('lost');
    this.#lostAt = moment;
    this.#scope.after(RETRY_MS, () => this.#tryAgain());
  }

  /** An element may wait in silence where a connection is gone or a server sends no parts: then it is found out. */
  #askAfter(deck: Deck, moment: Ticks<'programme'>): () => void {
    return this.#scope.after(PATIENCE_MS, async () => {
      const failure = await hindrance(deck.element.currentSrc);
      if (this.#target !== moment) return;
      if (!failure) this.#askAfter(deck, moment);
      else if (failure.why === 'connection') {
        // What it waits for comes no more; it is asked for anew.
        deck.forget();
        this.#lose(moment);
      } else this.#stop(failure);
    });
  }

  #tryAgain(): void {
    if (this.#lostAt !== undefined && this.#lostAt === this.#target) this.#goTo(this.#lostAt);
  }

  #found(): void {
    if (this.#lostAt === undefined) return;
    this.#lostAt = undefined;
    this.#tell('found');
  }

  #finish(): void {
    this.video.pause();
    this.#ended = true;
    this.#paused = true;
    this.#tell('timeupdate');
    this.#tell('pause');
    this.#tell('ended');
  }

  #swap(): void {
    const inSmallWindow = document.pictureInPictureElement === this.video;
    this.#onAir = 1 - this.#onAir;
    for (const [position, deck] of this.#decks.entries()) deck.putOnAir(position === this.#onAir);
    this.#setSound();
    if (inSmallWindow) this.video.requestPictureInPicture?.().catch(() => {});
  }

  /** The element was paused or started from outside: by a media key, or by unplugged headphones. */
  #adopt(paused: boolean): void {
    if (this.#paused === paused || this.#target !== undefined) return;
    this.#paused = paused;
    this.#tell(paused ? 'pause' : 'play');
  }

  #isQuietlyOnAir(position: number): boolean {
    return position === this.#onAir && !this.#switching && this.#target === undefined;
  }

  #tell(type: string): void {
    this.dispatchEvent(new Event(type));
  }
}

function union(ranges: readonly Range<'programme'>[]): Range<'programme'>[] {
  const result: Range<'programme'>[] = [];
  for (const next of ranges.filter((r) => lengthOf(r) > 0).toSorted((a, b) => a.start - b.start)) {
    const last = result.at(-1);
    if (last && next.start <= last.end) {
      if (next.end > last.end) result[result.length - 1] = range(last.start, next.end);
    } else result.push(next);
  }
  return result;
}
