import type videojs from 'video.js';
import { toSeconds } from '../../core/time/index.ts';
import { type ProgrammeMedia, RELAYED } from './programme-media.ts';

type VideoJs = typeof videojs;

/** The part of video.js's Tech that the adapter leans on; its own types leave out most of it. */
interface TechBase {
  readonly el_: HTMLElement;
  readonly options_: ProgrammeOptions;
  trigger(type: string): void;
  ready(work: () => void): void;
  triggerReady(): void;
  error(error?: { code: number; message: string }): unknown;
  dispose(): void;
}
type TechClass = new (options: object, ready?: () => void) => TechBase;

export interface ProgrammeSource {
  readonly src: string;
  readonly type: typeof PROGRAMME_TYPE;
}
/** What the player's options hold for this way of playing, under its name. */
export interface ProgrammeOptions {
  /** May play already; goes on while the player takes it up. */
  readonly media: ProgrammeMedia;
  /** Told when its element is about to move into the player's, which stands in the page by the end of the task. */
  readonly moves: () => void;
}
/** Of our own, so that no other way of playing claims it. */
export const PROGRAMME_TYPE = 'application/x-programme';
export const TECH_NAME = 'Programme';

const TOLD = [
  ...RELAYED,
  ...['loadstart', 'durationchange', 'loadedmetadata', 'loadeddata', 'play', 'pause', 'ended'],
  ...['seeking', 'seeked', 'volumechange', 'ratechange', 'lost', 'found'],
];

/**
 * Makes video.js play on the programme's clock: its controls, captions and chapters then know
 * nothing of camera files and cuts.
 */
export function registerProgramme(vjs: VideoJs): void {
  if (vjs.getTech(TECH_NAME)) return;
  const Tech = vjs.getComponent('Tech') as unknown as TechClass;

  class Programme extends Tech {
    declare media: ProgrammeMedia;
    declare source: ProgrammeSource | undefined;

    constructor(options: ProgrammeOptions & { source?: ProgrammeSource }, ready?: () => void) {
      super(options, ready);
      for (const type of TOLD) this.media.addEventListener(type, () => this.trigger(type));
      this.media.addEventListener('error', () => {
        this.error({ code: MediaError.MEDIA_ERR_SRC_NOT_SUPPORTED, message: this.media.error?.message ?? '' });
      });
      // The player listens only once the tech is made; what happens before would go unheard.
      this.ready(() => options.source && this.setSource(options.source));
      this.triggerReady();
    }

    createEl(): HTMLElement {
      // The base class calls this while it is made, and knows its options by then.
      this.media = this.options_.media;
      this.options_.moves();
      this.media.element.classList.add('vjs-tech');
      return this.media.element;
    }

    override dispose(): void {
      this.media.dispose();
      super.dispose();
    }

    setSource(source: ProgrammeSource): void {
      this.source = source;
      this.media.tellAgain();
    }

    src(): string {
      return this.source?.src ?? '';
    }
    currentSrc(): string {
      return this.src();
    }
    currentSource_(): unknown {
      return this.source;
    }
    play(): Promise<void> {
      return this.media.play();
    }
    pause(): void {
      this.media.pause();
    }
    paused(): boolean {
      return this.media.paused;
    }
    ended(): boolean {
      return this.media.ended;
    }
    seeking(): boolean {
      return this.media.seeking;
    }
    currentTime(): number {
      return this.media.currentTime;
    }
    setCurrentTime(seconds: number): void {
      this.media.currentTime = seconds;
    }
    duration(): number {
      return this.media.duration;
    }
    buffered(): unknown {
      // The second way of calling it, with a list, is missing from its types.
      const listed = vjs.time.createTimeRanges as unknown as (ranges: readonly (readonly number[])[]) => unknown;
      return listed(this.media.buffered.map(({ start, end }) => [toSeconds(start), toSeconds(end)]));
    }
    seekable(): unknown {
      return vjs.time.createTimeRanges(0, this.media.duration);
    }
    volume(): number {
      return this.media.volume;
    }
    setVolume(share: number): void {
      this.media.volume = share;
    }
    muted(): boolean {
      return this.media.muted;
    }
    setMuted(muted: boolean): void {
      this.media.muted = muted;
    }
    defaultMuted(): boolean {
      return false;
    }
    playbackRate(): number {
      return this.media.playbackRate;
    }
    setPlaybackRate(rate: number): void {
      this.media.playbackRate = rate;
    }
    defaultPlaybackRate(): number {
      return 1;
    }
    setDefaultPlaybackRate(): void {}
    readyState(): number {
      return this.media.video.readyState;
    }
    networkState(): number {
      return this.media.video.networkState;
    }
    videoWidth(): number {
      return this.media.video.videoWidth;
    }
    videoHeight(): number {
      return this.media.video.videoHeight;
    }
    preload(): string {
      return 'metadata';
    }
    setPreload(): void {}
    load(): void {}
    loop(): boolean {
      return false;
    }
    setLoop(): void {}
    poster(): string {
      return '';
    }
    setPoster(): void {}
    controls(): boolean {
      return false;
    }
    setControls(): void {}
    autoplay(): boolean {
      return false;
    }
    setAutoplay(): void {}
    playsinline(): boolean {
      return true;
    }
    setPlaysinline(): void {}
    /** The page's own full screen is used, so that controls and captions come along. */
    supportsFullScreen(): boolean {
      return false;
    }
  }

  Object.assign(Programme, {
    isSupported: () => true,
    canPlayType: (type: string) => (type === PROGRAMME_TYPE ? 'probably' : ''),
    canPlaySource: ({ type }: { type?: string }) => (type === PROGRAMME_TYPE ? 'probably' : ''),
  });
  Object.assign(Programme.prototype, {
    featuresVolumeControl: true,
    featuresMuteControl: true,
    featuresPlaybackRate: true,
    featuresFullscreenResize: true,
    featuresProgressEvents: true,
    featuresTimeupdateEvents: true,
    featuresNativeTextTracks: false,
  });
  vjs.registerTech(TECH_NAME, Programme);
}
