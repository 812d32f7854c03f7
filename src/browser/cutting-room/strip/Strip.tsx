import { effect, type Signal, useComputed, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import {
  chooseById,
  dragCue,
  dragEdge,
  framing,
  goTo,
  momentAt,
  openSuggestions,
  type Scale,
  scrolled,
  showing,
  snapped,
  timecodeAt,
  wholeScale,
  zoomed,
} from '../../../core/edit/index.ts';
import type { Ticks } from '../../../core/time/index.ts';
import { findingTimes } from '../findings.ts';
import type { Footage } from '../footage.ts';
import type { Store } from '../store.ts';
import { drawPlayhead, drawStrip, placeLabels } from './draw.ts';
import { type Gesture, hitAt, IDLE, movedTo, pressed } from './gesture.ts';
import { readLook, type Scene } from './scene.ts';

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
  const base = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const words = useComputed(() => {
    const { view } = store.session.value;
    return timecodeAt(store.playhead.value, view.labels);
  });
  const spoken = useSignal('');

  useEffect(() => {
    const ended = new AbortController();
    const [box, low, high] = [frame.current, base.current, over.current];
    const pen = low?.getContext('2d', { alpha: false });
    const top = high?.getContext('2d');
    if (!box || !low || !high || !pen || !top) return;
    startStrip({ store, footage, control, box, low, high, pen, top, signal: ended.signal });
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
      <canvas ref={base} />
      <canvas
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
  readonly low: HTMLCanvasElement;
  readonly high: HTMLCanvasElement;
  readonly pen: CanvasRenderingContext2D;
  readonly top: CanvasRenderingContext2D;
  readonly signal: AbortSignal;
}

function startStrip({ store, footage, control, box, low, high, pen, top, signal }: Parts): void {
  let look = readLook(box);
  let size = { width: 0, height: 0 };
  let scale: Scale = { top: 0, ticksPerLine: 1 };
  let untouched = true;
  let gesture: Gesture = IDLE;
  let preview: { id: string; at: Ticks<'recording'> } | undefined;
  let stale = true;
  let asked = 0;
  let scene: Scene | undefined;

  const length = () => store.session.peek().view.length;
  const current = (): Scene => {
    const { view, content, marks, found } = store.session.peek();
    const dragged = preview?.id.match(/^(\d+) (in|out)$/);
    const kept =
      dragged && preview
        ? view.kept.map((k, i) =>
            i === Number(dragged[1]) && preview
              ? { ...k, [dragged[2] === 'in' ? 'in' : 'out']: { at: preview.at } }
              : k,
          )
        : view.kept;
    const passages =
      preview && !dragged
        ? view.passages.map((p) => (p.id === preview?.id && p.cue ? { ...p, cue: { ...p.cue, at: preview.at } } : p))
        : view.passages;
    return {
      scale,
      ...size,
      length: view.length,
      kept,
      passages,
      chosen: content.chosen,
      marks,
      suggestions: openSuggestions(store.session.peek()),
      found,
      silences: footage.silences.peek(),
      speech: footage.speech.peek(),
      peaks: footage.peaks.peek(),
      thumbs: footage.thumbs.peek(),
      findings: findingTimes(store.diagnostics.peek(), store.session.peek()),
      // The first frame at or after the line: drop-frame labels of whole seconds lie a hair behind it.
      label: (moment) =>
        timecodeAt(moment + (view.labels.rate?.ticksPerFrame ?? 0) * 0.95, view.labels).slice(
          0,
          scale.ticksPerLine > 705_600_000 / 20 ? 8 : 11,
        ),
      look,
    };
  };
  const draw = () => {
    asked = 0;
    if (size.height === 0) return;
    if (stale || !scene) {
      scene = current();
      drawStrip(pen, scene);
      stale = false;
    }
    const { labels } = store.session.peek().view;
    drawPlayhead(top, scene, store.playhead.peek(), timecodeAt(store.playhead.peek(), labels));
  };
  const ask = (all: boolean) => {
    stale ||= all;
    asked ||= requestAnimationFrame(draw);
  };
  const setScale = (next: Scale) => {
    scale = next;
    untouched = false;
    ask(true);
  };

  const resized = new ResizeObserver(() => {
    const { clientWidth, clientHeight } = box;
    if (clientWidth === 0 || clientHeight === 0) return;
    const dots = devicePixelRatio;
    for (const canvas of [low, high]) {
      canvas.width = Math.round(clientWidth * dots);
      canvas.height = Math.round(clientHeight * dots);
    }
    pen.setTransform(dots, 0, 0, dots, 0, 0);
    top.setTransform(dots, 0, 0, dots, 0, 0);
    size = { width: clientWidth, height: clientHeight };
    if (untouched) scale = wholeScale(length(), clientHeight);
    ask(true);
  });
  resized.observe(box);
  const dark = matchMedia('(prefers-color-scheme: dark)');
  dark.addEventListener(
    'change',
    () => {
      look = readLook(box);
      ask(true);
    },
    { signal },
  );
  void document.fonts?.ready.then(() => ask(true));

  const ends = [
    effect(() => {
      store.session.value;
      footage.silences.value;
      footage.speech.value;
      footage.peaks.value;
      footage.thumbs.value;
      store.diagnostics.value;
      if (untouched && size.height > 0) scale = wholeScale(length(), size.height);
      ask(true);
    }),
    effect(() => {
      const at = store.playhead.value;
      if (gesture.state === 'idle' && size.height > 0) {
        const next = showing(scale, at, length(), size.height);
        if (next !== scale) setScale(next);
      }
      ask(false);
    }),
  ];

  const at = (event: MouseEvent) => {
    const { left, top: edge } = high.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - edge };
  };
  const seek = (y: number) => store.run((session) => ({ session: goTo(session, momentAt(scale, y, length())) }));
  const seekWhole = (y: number) => store.run((session) => ({ session: goTo(session, (y / size.height) * length()) }));
  const landing = (y: number) =>
    snapped(store.session.peek(), momentAt(scale, y, length()), Math.round(10 * scale.ticksPerLine));

  high.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const { y } = at(event);
      if (event.ctrlKey) setScale(zoomed(scale, Math.exp(-event.deltaY / 240), y, length(), size.height));
      else setScale(scrolled(scale, event.deltaY + event.deltaX, length(), size.height));
    },
    { signal, passive: false },
  );
  high.addEventListener(
    'pointerdown',
    (event) => {
      if (event.button !== 0) return;
      const { x, y } = at(event);
      const { view, content } = store.session.peek();
      const labels = placeLabels({ passages: view.passages, scale, height: size.height, chosen: content.chosen });
      const hit = hitAt(
        { scale, width: size.width, thumbs: footage.thumbs.peek() !== undefined, kept: view.kept, labels },
        x,
        y,
      );
      high.setPointerCapture(event.pointerId);
      gesture = pressed(hit, x, y);
      if (hit.on === 'time') seek(y);
      if (hit.on === 'whole') seekWhole(y);
      if (hit.on === 'label') store.run(chooseById, hit.id);
    },
    { signal },
  );
  high.addEventListener(
    'pointermove',
    (event) => {
      const { x, y } = at(event);
      gesture = movedTo(gesture, x, y);
      if (gesture.state !== 'dragging') return;
      const { hit } = gesture;
      if (hit.on === 'time') seek(y);
      else if (hit.on === 'whole') seekWhole(y);
      else {
        const id = hit.on === 'edge' ? `${hit.edge.entry} ${hit.edge.point}` : hit.id;
        preview = { id, at: landing(y) };
        store.seek(preview.at);
        ask(true);
      }
    },
    { signal },
  );
  const release = (done: boolean) => {
    const { state } = gesture;
    const hit = gesture.state === 'dragging' ? gesture.hit : undefined;
    gesture = IDLE;
    const landed = preview;
    preview = undefined;
    if (state === 'dragging' && done && landed && hit?.on === 'edge') store.run(dragEdge, `${landed.id} ${landed.at}`);
    if (state === 'dragging' && done && landed && hit?.on === 'label') store.run(dragCue, `${landed.id} ${landed.at}`);
    ask(true);
  };
  high.addEventListener('pointerup', () => release(true), { signal });
  high.addEventListener('pointercancel', () => release(false), { signal });

  control.value = {
    zoom: (factor) => {
      const line = (store.playhead.peek() - scale.top) / scale.ticksPerLine;
      setScale(zoomed(scale, factor, line >= 0 && line <= size.height ? line : size.height / 2, length(), size.height));
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
