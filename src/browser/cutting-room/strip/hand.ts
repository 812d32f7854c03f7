import {
  chooseById,
  dragCue,
  dragEdge,
  goTo,
  momentAt,
  type Scale,
  scroll,
  snap,
  zoom,
} from '../../../core/edit/index.ts';
import type { Ticks } from '../../../core/time/index.ts';
import type { Store } from '../store.ts';
import { drag, type Gesture, type Hit, hitAt, IDLE, press } from './gesture.ts';
import { placeLabels } from './labels.ts';

/** Where an edge or a cue is held at the moment; it is written when the hand lets go. */
export interface Held {
  readonly hit: Extract<Hit, { on: 'edge' | 'label' }>;
  readonly at: Ticks<'recording'>;
}

/** The strip as a hand meets it. */
export interface Stage {
  readonly element: HTMLElement;
  scale(): Scale;
  setScale(next: Scale): void;
  size(): { readonly width: number; readonly height: number };
  thumbs(): boolean;
  spoken(): boolean;
  hold(held: Held | undefined): void;
  /** The label of this passage is under the pointer, or none is. */
  pointAt(id: string | undefined): void;
}

/** How far from a silence, a scene change or a key frame a hand may be off for the thing it drags to snap there, lines. */
const SNAP_REACH = 8;

/** Wheel and pointer on the strip. Shift held while dragging lets go of snapping. */
export function giveHand(store: Store, stage: Stage, signal: AbortSignal): { readonly busy: () => boolean } {
  const { element } = stage;
  let gesture: Gesture = IDLE;
  let held: Held | undefined;
  const length = () => store.session.peek().view.length;
  const momentOf = (y: number) => momentAt(stage.scale(), y, length());
  const landing = (y: number, free: boolean) => {
    const session = store.session.peek();
    const reach = Math.round(SNAP_REACH * stage.scale().ticksPerLine);
    return snap(free ? { ...session, snapping: false } : session, momentOf(y), reach);
  };
  const seek = (to: number) => store.run((session) => ({ session: goTo(session, to) }));
  const seekWhole = (y: number) => seek((y / stage.size().height) * length());

  const hitOf = ({ offsetX, offsetY }: PointerEvent) => {
    const { view, content } = store.session.peek();
    const { width, height } = stage.size();
    const scale = stage.scale();
    const labels = placeLabels({ passages: view.passages, scale, height, chosen: content.chosen });
    const seen = { scale, width, thumbs: stage.thumbs(), spoken: stage.spoken(), kept: view.kept, labels };
    return hitAt(seen, offsetX, offsetY);
  };
  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    const { height } = stage.size();
    if (event.ctrlKey)
      stage.setScale(zoom(stage.scale(), Math.exp(-event.deltaY / 240), event.offsetY, length(), height));
    else stage.setScale(scroll(stage.scale(), event.deltaY + event.deltaX, length(), height));
  };
  const pointerDown = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const { offsetX: x, offsetY: y } = event;
    const hit = hitOf(event);
    element.setPointerCapture(event.pointerId);
    gesture = press(hit, x, y);
    if (hit.on === 'time') seek(momentOf(y));
    if (hit.on === 'whole') seekWhole(y);
    if (hit.on === 'label') store.run(chooseById, hit.id);
  };
  const move = (event: PointerEvent) => {
    if (gesture.state === 'idle') {
      const hit = hitOf(event);
      stage.pointAt(hit.on === 'label' ? hit.id : undefined);
      return;
    }
    gesture = drag(gesture, event.offsetX, event.offsetY);
    if (gesture.state !== 'dragging') return;
    const { hit, y } = gesture;
    if (hit.on === 'whole') seekWhole(y);
    else if (hit.on === 'time') seek(landing(y, event.shiftKey));
    else {
      held = { hit, at: landing(y, event.shiftKey) };
      stage.hold(held);
      store.seek(held.at);
    }
  };
  const release = (done: boolean) => {
    const landed = held;
    gesture = IDLE;
    held = undefined;
    stage.hold(undefined);
    if (!done || !landed) return;
    const { hit, at } = landed;
    if (hit.on === 'edge') store.run(dragEdge, `${hit.edge.entry} ${hit.edge.point} ${at}`);
    else store.run(dragCue, `${hit.id} ${at}`);
  };

  element.addEventListener('wheel', wheel, { signal, passive: false });
  element.addEventListener('pointerdown', pointerDown, { signal });
  element.addEventListener('pointermove', move, { signal });
  element.addEventListener('pointerup', () => release(true), { signal });
  element.addEventListener('pointerleave', () => stage.pointAt(undefined), { signal });
  element.addEventListener('pointercancel', () => release(false), { signal });
  return { busy: () => gesture.state !== 'idle' };
}
