/**
 * A video element without a browser: it loads, seeks and plays when a test says so. `document.createElement` makes one
 * for each deck while `install` is in force.
 */
export class FakeVideo extends EventTarget {
  readonly tag: string;
  readonly attributes = new Map<string, string>();
  readonly children: FakeVideo[] = [];
  className = '';
  get currentSrc(): string {
    return this.src;
  }
  readyState = 0;
  seeking = false;
  paused = true;
  ended = false;
  muted = false;
  volume = 1;
  playbackRate = 1;
  defaultPlaybackRate = 1;
  preload = '';
  playsInline = false;
  tabIndex = 0;
  error: { code: number } | null = null;
  /** What `play` is answered with: a browser may want a gesture first. */
  refusal: DOMException | undefined;
  plays = 0;
  #src = '';
  #time = 0;

  constructor(tag: string) {
    super();
    this.tag = tag;
  }

  get src(): string {
    return this.#src;
  }
  set src(url: string) {
    this.#src = url;
    this.readyState = 0;
    this.#time = 0;
    this.error = null;
  }

  get currentTime(): number {
    return this.#time;
  }
  set currentTime(seconds: number) {
    this.#time = seconds;
    this.seeking = true;
  }

  get buffered() {
    return { length: 1, start: () => 0, end: () => this.#time };
  }

  async play(): Promise<void> {
    this.plays++;
    if (this.refusal) throw this.refusal;
    this.paused = false;
  }
  pause(): void {
    this.paused = true;
  }
  load(): void {}
  append(child: FakeVideo): void {
    this.children.push(child);
  }
  remove(): void {}
  setAttribute(name: string, value: string): void {
    this.attributes.set(name, value);
  }
  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }
  toggleAttribute(name: string, on: boolean): void {
    if (on) this.attributes.set(name, '');
    else this.attributes.delete(name);
  }

  tell(type: string): void {
    this.dispatchEvent(new Event(type));
  }
  /** The file is known: its length, not its picture. */
  know(): void {
    if (this.readyState >= 1) return;
    this.readyState = 1;
    this.tell('loadedmetadata');
  }
  /** The picture of where it was sent is there. */
  show(): void {
    this.readyState = 4;
    this.seeking = false;
    this.tell('seeked');
  }
  /** Playing has come to here, and the element reports it. */
  reach(seconds: number): void {
    this.#time = seconds;
    this.tell('timeupdate');
  }
  fail(): void {
    this.error = { code: 4 };
    this.tell('error');
  }
}

/** Puts fake elements in place of the page's. @returns what takes them away again */
export function install(): () => void {
  const page = globalThis as Record<string, unknown>;
  const before = {
    document: page.document,
    window: page.window,
    HTMLMediaElement: page.HTMLMediaElement,
    MediaError: page.MediaError,
  };
  page.window = new EventTarget();
  page.document = { createElement: (tag: string) => new FakeVideo(tag) };
  page.MediaError = { MEDIA_ERR_NETWORK: 2 };
  page.HTMLMediaElement = { HAVE_METADATA: 1, HAVE_CURRENT_DATA: 2 };
  return () => Object.assign(page, before);
}
