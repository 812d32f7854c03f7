/** @jsxImportSource preact */
import { effect, type Signal, useComputed, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import {
  framing,
  openSuggestions,
  rulerMarks,
  type Scale,
  type Session,
  showing,
  timecodeAt,
  unreadOf,
  wholeScale,
  zoom,
} from '../../../core/edit/index.ts';
import { invert, TICKS_PER_SECOND } from '../../../core/time/index.ts';
import { findingTimes } from '../findings.ts';
import type { Footage } from '../footage.ts';
import type { Store } from '../store.ts';
import { drawStrip } from './draw.ts';
import { giveHand, type Held } from './hand.ts';
import { forgetWidths, numbersOf } from './labels.ts';
import { PlayheadMark } from './playhead.ts';
import { type Contents, type Look, readLook, type Scene } from './scene.ts';

/** What keys do to the strip. */
export interface StripControl {
  zoom(factor: number): void;
  whole(): void;
  chosen(): void;
}

interface Props {
  readonly store: Store;
  readonly footage: Footage;
  readonly control: Signal<StripControl | undefined>;
}

/** The recording as a strip of film hanging downwards. Everything it shows is also in the lists beside it. */
export function Strip({ store, footage, control }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLDivElement>(null);
  const words = useComputed(() => timecodeAt(store.playhead.value, store.session.value.view.labels));
  const spoken = useSignal('');

  useEffect(() => {
    const ended = new AbortController();
    const [box, low, high] = [frame.current, canvas.current, over.current];
    const pen = low?.getContext('2d', { alpha: false });
    if (!box || !low || !high || !pen) return;
    startStrip({ store, footage, control, box, canvas: low, over: high, pen, signal: ended.signal });
    // A screen reader is told where the playhead is when it rests, not with every frame.
    const told = effect(() => {
      store.jumps.value;
      if (store.session.value.transport.speed === 0)
        spoken.value = timecodeAt(store.playhead.peek(), store.session.peek().view.labels);
    });
    return () => {
      told();
      ended.abort();
    };
  }, []);

  return (
    <div class="strip" ref={frame}>
      <canvas ref={canvas} />
      <div
        ref={over}
        class="over"
        role="slider"
        tabIndex={0}
        aria-label="Playhead on the recording"
        aria-orientation="vertical"
        aria-valuemin={0}
        aria-valuemax={store.view.value.length}
        aria-valuenow={store.jumps.value >= 0 ? store.playhead.peek() : 0}
        aria-valuetext={spoken.value || words.value}
      />
    </div>
  );
}

interface Parts extends Props {
  readonly box: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly over: HTMLElement;
  readonly pen: CanvasRenderingContext2D;
  readonly signal: AbortSignal;
}

function startStrip({ store, footage, control, box, canvas, over, pen, signal }: Parts): void {
  const mark = new PlayheadMark(over);
  let look = readLook(box);
  let size = { width: 0, height: 0 };
  let scale: Scale = { top: 0, ticksPerLine: 1 };
  let untouched = true;
  let held: Held | undefined;
  let pointedAt: string | undefined;
  let stale = true;
  let asked = 0;
  let contents: Contents | undefined;

  const length = () => store.session.peek().view.length;
  const thumbs = () => footage.thumbs.peek() !== undefined;
  const spoken = () => footage.spoken.peek().length > 0;
  const draw = () => {
    asked = 0;
    if (size.height === 0) return;
    const { labels } = store.session.peek().view;
    if (stale) {
      contents ??= contentsOf(store, footage, look);
      const seen = held ? withHeld(contents, held) : contents;
      drawStrip(pen, {
        ...seen,
        scale,
        ...size,
        pointedAt,
        label: rulerLabel(store, scale),
        marksOf: (at, lines, apart) => rulerMarks(at, lines, apart, store.session.peek().view.labels),
      });
      stale = false;
    }
    mark.put(scale, store.playhead.peek(), length(), size.height, timecodeAt(store.playhead.peek(), labels));
  };
  const ask = () => {
    asked ||= requestAnimationFrame(draw);
  };
  const redraw = () => {
    stale = true;
    ask();
  };
  const renew = () => {
    contents = undefined;
    redraw();
  };
  const setScale = (next: Scale) => {
    scale = next;
    untouched = false;
    redraw();
  };

  const resized = new ResizeObserver(() => {
    const { clientWidth, clientHeight } = box;
    if (clientWidth === 0 || clientHeight === 0) return;
    canvas.width = Math.round(clientWidth * devicePixelRatio);
    canvas.height = Math.round(clientHeight * devicePixelRatio);
    pen.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
    size = { width: clientWidth, height: clientHeight };
    mark.fit(clientWidth, thumbs(), spoken());
    if (untouched) scale = wholeScale(length(), clientHeight);
    redraw();
  });
  resized.observe(box);
  const changeLook = () => {
    look = readLook(box);
    renew();
  };
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', changeLook, { signal });
  void document.fonts?.ready.then(() => {
    forgetWidths();
    redraw();
  });

  const hand = giveHand(
    store,
    {
      element: over,
      scale: () => scale,
      setScale,
      size: () => size,
      thumbs,
      spoken,
      hold: (next) => {
        held = next;
        redraw();
      },
      pointAt: (id) => {
        if (id === pointedAt) return;
        pointedAt = id;
        redraw();
      },
    },
    signal,
  );
  const ends = [
    effect(() => {
      store.session.value;
      footage.silences.value;
      footage.speech.value;
      footage.spoken.value;
      footage.peaks.value;
      footage.thumbs.value;
      store.diagnostics.value;
      if (size.height > 0) mark.fit(size.width, thumbs(), spoken());
      if (untouched && size.height > 0) scale = wholeScale(length(), size.height);
      renew();
    }),
    effect(() => {
      const at = store.playhead.value;
      if (!hand.busy() && size.height > 0) {
        const next = showing(scale, at, length(), size.height);
        if (next !== scale) setScale(next);
      }
      ask();
    }),
  ];

  control.value = {
    zoom: (factor) => {
      const line = (store.playhead.peek() - scale.top) / scale.ticksPerLine;
      setScale(zoom(scale, factor, line >= 0 && line <= size.height ? line : size.height / 2, length(), size.height));
    },
    whole: () => setScale(wholeScale(length(), size.height)),
    chosen: () => {
      const { view, content } = store.session.peek();
      const passage = view.passages.find(({ id }) => id === content.chosen);
      if (!passage?.cue) {
        store.say('what is chosen has no cue yet');
        return;
      }
      const from = passage.cue.at;
      const next = view.passages.find(({ cue }) => cue && cue.at > from)?.cue?.at;
      setScale(framing(from, passage.cue.until ?? next ?? length(), length(), size.height));
    },
  };
  signal.addEventListener('abort', () => {
    resized.disconnect();
    cancelAnimationFrame(asked);
    for (const end of ends) end();
  });
}

/** Gathered once for each change of the content, not with each frame. */
function contentsOf(store: Store, footage: Footage, look: Look): Contents {
  const session = store.session.peek();
  const { view, content, marks, found } = session;
  return {
    length: view.length,
    kept: view.kept,
    cuts: invert(view.kept, view.length),
    passages: view.passages,
    numbers: numbersOf(view.passages),
    chosen: content.chosen,
    marks,
    ...proposalsOf(session),
    found,
    silences: footage.silences.peek(),
    speech: footage.speech.peek(),
    unread: unreadOf(session).map(({ at }) => at),
    spoken: footage.spoken.peek(),
    peaks: footage.peaks.peek(),
    thumbs: footage.thumbs.peek(),
    findings: findingTimes(store.diagnostics.peek(), session),
    look,
  };
}

/** The same with the edge or the cue where the hand holds it. */
function withHeld(contents: Contents, { hit, at }: Held): Contents {
  if (hit.on === 'label')
    return {
      ...contents,
      passages: contents.passages.map((p) => (p.id === hit.id && p.cue ? { ...p, cue: { ...p.cue, at } } : p)),
    };
  const { entry, point } = hit.edge;
  const kept = contents.kept.map((k, i) => (i === entry ? { ...k, [point]: { at } } : k));
  return { ...contents, kept, cuts: invert(kept, contents.length) };
}

function rulerLabel(store: Store, { ticksPerLine }: Scale): Scene['label'] {
  const { labels } = store.session.peek().view;
  const signs = ticksPerLine > TICKS_PER_SECOND / 20 ? 8 : 11;
  // The first frame at or after the line: drop-frame labels of whole seconds lie a hair behind it.
  return (moment) => timecodeAt(moment + (labels.rate?.ticksPerFrame ?? 0) * 0.95, labels).slice(0, signs);
}

function proposalsOf(session: Session): Pick<Contents, 'suggested' | 'proposedSteps'> {
  const open = openSuggestions(session);
  return {
    suggested: open.filter(({ title }) => title === undefined).map(({ range }) => range),
    proposedSteps: open.filter(({ title }) => title !== undefined).map(({ range }) => range.start),
  };
}
