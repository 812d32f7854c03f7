import { type Edge, edgesOf, lineOf, type Scale } from '../../../core/edit/index.ts';
import type { EditList } from '../../../core/time/index.ts';
import { columnsOf } from './columns.ts';
import type { PlacedLabel } from './labels.ts';

/** What lies under the pointer. */
export type Hit =
  | { readonly on: 'whole' }
  | { readonly on: 'edge'; readonly edge: Edge }
  | { readonly on: 'label'; readonly id: string }
  | { readonly on: 'time' };

/** What a hand does with the strip: nothing, pressed and not moved yet, or dragging. */
export type Gesture =
  | { readonly state: 'idle' }
  | { readonly state: 'pressed'; readonly hit: Hit; readonly x: number; readonly y: number }
  | { readonly state: 'dragging'; readonly hit: Hit; readonly y: number };

export const IDLE: Gesture = { state: 'idle' };
const SLACK = 4;
const EDGE_REACH = 6;
/** Half of the two lines of a label. */
const LABEL_REACH = 15;

interface Seen {
  readonly scale: Scale;
  readonly width: number;
  readonly thumbs: boolean;
  readonly spoken: boolean;
  readonly kept: EditList;
  readonly labels: readonly PlacedLabel[];
}

export function hitAt({ scale, width, thumbs, spoken, kept, labels }: Seen, x: number, y: number): Hit {
  const columns = columnsOf(width, thumbs, spoken);
  if (x < columns.whole.x + columns.whole.w + 2) return { on: 'whole' };
  if (x > columns.sound.x + columns.sound.w + 2) {
    // A press on words goes to their time.
    if (x < columns.words.x + columns.words.w) return { on: 'time' };
    const label = labels.find(({ line }) => Math.abs(line - y) <= LABEL_REACH);
    if (label) return { on: 'label', id: label.id };
    return { on: 'time' };
  }
  if (x >= columns.film.x - 6) {
    const near = edgesOf(kept)
      .map((edge) => ({ edge, away: Math.abs(lineOf(scale, edge.at) - y) }))
      .filter(({ away }) => away <= EDGE_REACH)
      .toSorted((a, b) => a.away - b.away)[0];
    if (near) return { on: 'edge', edge: near.edge };
  }
  return { on: 'time' };
}

export function press(hit: Hit, x: number, y: number): Gesture {
  return { state: 'pressed', hit, x, y };
}

/** A press becomes a drag once the hand has left it by more than a tremble. */
export function drag(gesture: Gesture, x: number, y: number): Gesture {
  if (gesture.state === 'idle') return gesture;
  if (gesture.state === 'pressed' && Math.hypot(x - gesture.x, y - gesture.y) < SLACK) return gesture;
  return { state: 'dragging', hit: gesture.hit, y };
}
