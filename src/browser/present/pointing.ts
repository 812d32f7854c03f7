import type { PicturePlace, Pointing } from './room-channel.ts';

/** So far a press of an arrow key moves the pointer, as a share of the picture. */
const STEP = 0.02;
/** A press of Enter this near to a ring takes it away, as a share of the picture. */
const NEAR = 0.04;
/** Where the pointer begins. */
export const MIDDLE: PicturePlace = { x: 0.5, y: 0.5 };

const within = (value: number) => Math.min(1, Math.max(0, value));

/** The pointer at a place of the picture; outside of it there is nothing to point at, and it stays at the edge. */
export function pointTo(pointing: Pointing, { x, y }: PicturePlace): Pointing {
  return { ...pointing, at: { x: within(x), y: within(y) } };
}

/** A ring where the pointer is; one that is there already goes. */
export function ringHere({ at, rings }: Pointing): Pointing {
  if (!at) return { at, rings };
  const others = rings.filter(({ x, y }) => Math.hypot(x - at.x, y - at.y) > NEAR);
  return { at, rings: others.length < rings.length ? others : [...rings, at] };
}

/** What a key does while something is pointed at; nothing where it does nothing. */
export function pointingKey(pointing: Pointing, key: string): Pointing | 'end' | undefined {
  const { x, y } = pointing.at ?? MIDDLE;
  switch (key) {
    case 'ArrowLeft':
      return pointTo(pointing, { x: x - STEP, y });
    case 'ArrowRight':
      return pointTo(pointing, { x: x + STEP, y });
    case 'ArrowUp':
      return pointTo(pointing, { x, y: y - STEP });
    case 'ArrowDown':
      return pointTo(pointing, { x, y: y + STEP });
    case 'Enter':
    case ' ':
      return ringHere(pointing);
    case 'Escape':
    case 'p':
    case 'P':
      return 'end';
    default:
      return undefined;
  }
}
