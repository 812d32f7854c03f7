import type { Clip } from '../../core/day/index.ts';

/** A place in the picture: 0 to 1 from its left and top edge. */
export interface PicturePlace {
  readonly x: number;
  readonly y: number;
}

/** A pointer and rings drawn over the picture. */
export interface Pointing {
  readonly at: PicturePlace | null;
  readonly rings: readonly PicturePlace[];
}

/** What the room is told to show; sent whole, so that a window that was opened late is right at once. */
export interface RoomView {
  /** What is pointed at. */
  readonly pointing: Pointing | null;
  /** Model year whose values are shown; nothing for those of the lesson. */
  readonly year: number | null;
  readonly clip: Clip | null;
  /** Of the step, where the class talks about it now. */
  readonly talk: string | null;
  readonly playing: boolean;
  readonly speed: number;
  readonly dark: boolean;
  /** Counts the times that a clip was started from its beginning. */
  readonly start: number;
  /** How much of the clip had run when it was started, s: after a reload it goes on there. */
  readonly ran: number;
  /** Block that is on; before the class its title, behind it a word of thanks. */
  readonly title: string;
  readonly line: string;
  /** What is left of the block, s; negative when it is over its time; nothing before and behind the class. */
  readonly left: number | null;
}

/** What a room window says. */
export type RoomWord =
  | { readonly kind: 'here'; readonly start: number; readonly seconds: number; readonly refused: boolean }
  /** The clip that was started as the so-manieth has come to its end. */
  | { readonly kind: 'clip-over'; readonly start: number }
  | { readonly kind: 'view'; readonly view: RoomView };

export function roomChannel(of: string): BroadcastChannel {
  return new BroadcastChannel(`liftside-room-${of}`);
}
