import { effect } from '@preact/signals';
import { frameLength, goTo, onFrame, overCut, releaseTransport } from '../../core/edit/index.ts';
import type { CameraFile } from '../../core/model/index.ts';
import { fromSeconds, type Ticks, ticks, toProgramme, toSeconds } from '../../core/time/index.ts';
import type { Store } from './store.ts';

type Moment = Ticks<'recording'>;

/** Fastest and slowest that browsers play; beyond that the picture is moved by seeking. */
const FASTEST = 16;
const SLOWEST = 0.0625;

/** A camera file with the element that shows it. */
interface Reel {
  readonly file: CameraFile;
  readonly video: HTMLVideoElement;
}

/**
 * Shows the recording at the playhead. Several camera files are several elements, of which one is seen; forwards the
 * element's own playing drives the playhead, backwards the clock does and the element follows by seeking.
 */
export class Player {
  readonly #store: Store;
  readonly #reels: Reel[];
  #wanted: Moment | undefined;
  #frame = 0;
  #backFrom: { at: Moment; clock: number } | undefined;
  /** Milliseconds from asking for a frame to its being there, the last ones. */
  readonly seeks: number[] = [];

  constructor(store: Store, holder: HTMLElement, files: readonly CameraFile[], signal: AbortSignal) {
    this.#store = store;
    this.#reels = files
      .filter(({ facts }) => facts.state === 'media')
      .map((file) => {
        const video = document.createElement('video');
        video.src = store.api.media(file.file);
        video.preload = 'auto';
        video.playsInline = true;
        video.tabIndex = -1;
        video.hidden = true;
        video.disablePictureInPicture = true;
        video.addEventListener('seeked', () => this.#seeked(), { signal });
        video.addEventListener('loadedmetadata', () => this.#show(store.playhead.peek()), { signal });
        video.addEventListener('ended', () => this.#ended(), { signal });
        holder.append(video);
        return { file, video };
      });
    const ends = [
      effect(() => {
        store.jumps.value;
        this.#show(store.playhead.peek());
        this.#backFrom = undefined;
        if (this.speed > 0) this.#play();
      }),
      effect(() => this.#speedChanged(store.session.value.transport.speed)),
    ];
    signal.addEventListener('abort', () => {
      cancelAnimationFrame(this.#frame);
      for (const end of ends) end();
      for (const { video } of this.#reels) video.remove();
    });
  }

  get speed(): number {
    return this.#store.session.peek().transport.speed;
  }

  #reelAt(at: Moment): Reel | undefined {
    return this.#reels.find(({ file }) => at < file.span.end) ?? this.#reels.at(-1);
  }

  get #seen(): Reel | undefined {
    return this.#reels.find(({ video }) => !video.hidden);
  }

  get #labels() {
    return this.#store.session.peek().view.labels;
  }

  /** Puts the picture of a moment on; while one seek is under way the next one waits, and only the last counts. */
  #show(at: Moment): void {
    const reel = this.#reelAt(at);
    if (!reel) return;
    for (const { video } of this.#reels) {
      const other = video !== reel.video;
      if (other && !video.paused) video.pause();
      video.hidden = other;
    }
    if (reel.video.seeking) {
      this.#wanted = at;
      return;
    }
    const stands = frameLength(at, this.#labels);
    // The middle of the frame: no rounding of any browser lands on its neighbour.
    const middle = onFrame(at, this.#labels) + stands / 2 - reel.file.span.start;
    const seconds = Math.max(0, middle / fromSeconds(1));
    if (reel.video.readyState === 0) return;
    if (Math.abs(reel.video.currentTime - seconds) < toSeconds(stands) / 4) return;
    this.#asked = performance.now();
    reel.video.currentTime = seconds;
  }

  #asked = 0;

  #seeked(): void {
    if (this.#asked > 0) {
      this.seeks.push(performance.now() - this.#asked);
      if (this.seeks.length > 500) this.seeks.shift();
      this.#asked = 0;
    }
    const wanted = this.#wanted;
    this.#wanted = undefined;
    if (wanted !== undefined) this.#show(wanted);
  }

  #speedChanged(speed: number): void {
    cancelAnimationFrame(this.#frame);
    this.#backFrom = undefined;
    if (speed > 0) this.#play();
    else {
      for (const { video } of this.#reels) video.pause();
      if (speed === 0) this.#show(this.#store.playhead.peek());
    }
    if (speed !== 0) this.#frame = requestAnimationFrame(() => this.#tick());
  }

  #play(): void {
    const seen = this.#seen ?? this.#reelAt(this.#store.playhead.peek());
    if (!seen) return;
    seen.video.playbackRate = Math.min(Math.max(this.speed, SLOWEST), FASTEST);
    seen.video.play().catch(() => {
      // Seeking or hiding breaks off a play that had only begun; the next tick asks again.
    });
  }

  #tick(): void {
    const { transport, view } = this.#store.session.peek();
    if (transport.speed === 0) return;
    const at = transport.speed > 0 ? this.#forwards() : this.#backwards(transport.speed);
    if (at !== undefined) {
      const next = transport.programme ? overCut(view.kept, at, transport.speed > 0 ? 1 : -1) : at;
      const over = transport.until !== undefined && at >= transport.until;
      if (next === undefined || over || at >= view.length || (at <= 0 && transport.speed < 0)) {
        this.#stop(over && transport.until !== undefined ? transport.until : ticks(Math.min(at, view.length - 1)));
        return;
      }
      if (next !== at) this.#store.seek(next);
      else this.#store.playhead.value = at;
    }
    this.#frame = requestAnimationFrame(() => this.#tick());
  }

  #forwards(): Moment | undefined {
    const seen = this.#seen;
    if (!seen || seen.video.seeking || this.#wanted !== undefined) return undefined;
    if (seen.video.paused && !seen.video.ended) this.#play();
    return ticks(seen.file.span.start + fromSeconds(seen.video.currentTime));
  }

  #backwards(speed: number): Moment {
    const clock = performance.now();
    this.#backFrom ??= { at: this.#store.playhead.peek(), clock };
    const at = this.#backFrom.at + fromSeconds((speed * (clock - this.#backFrom.clock)) / 1000);
    const moment = ticks<'recording'>(Math.max(0, at));
    this.#show(moment);
    return moment;
  }

  /** One camera file is over: the next one goes on. */
  #ended(): void {
    const seen = this.#seen;
    if (this.speed <= 0 || !seen) return;
    const next = this.#reels[this.#reels.indexOf(seen) + 1];
    if (next) this.#store.seek(next.file.span.start);
    else this.#stop(this.#store.playhead.peek());
  }

  #stop(at: Moment): void {
    const session = this.#store.now();
    const there = goTo(session, at);
    this.#store.patch({ transport: { ...releaseTransport(session.transport), speed: 0 } });
    this.#store.seek(there.playhead);
  }
}

/** The programme time at a moment; in a cut, that of the join. */
export function programmeAt(store: Store, at: Moment): { at: Ticks<'programme'>; cut: boolean } {
  const placed = toProgramme(store.session.value.view.kept, at);
  return { at: placed.at, cut: placed.cut !== undefined };
}
