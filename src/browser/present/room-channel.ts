import { z } from 'zod';
import { type Clip, type DaySheet, type RoomWord, roomWordSchema } from '../../core/day/index.ts';

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

/** What a room window is told. */
export type LeadWord =
  | { readonly kind: 'view'; readonly view: RoomView }
  | { readonly kind: 'films'; readonly films: DaySheet['films'] };

/** The room's window, as the one who leads reaches it. */
export interface RoomLink {
  tell(word: LeadWord): void;
  listen(hear: (word: RoomWord) => void): void;
  open(): void;
}

/** The one who leads, as the room's window reaches them. */
export interface LeadLink {
  say(word: RoomWord): void;
  listen(hear: (word: LeadWord) => void): void;
}

const SIZE = 'popup,width=1280,height=720';

/** @param address of the page that the room sees */
export function roomByChannel(of: string, address: string): RoomLink {
  const channel = new BroadcastChannel(nameOf(of));
  return {
    tell: (word) => channel.postMessage(word),
    listen: (hear) => {
      channel.onmessage = ({ data }: MessageEvent<RoomWord>) => hear(data);
    },
    open: () => void window.open(address, nameOf(of), SIZE),
  };
}

export function leadByChannel(of: string): LeadLink {
  const channel = new BroadcastChannel(nameOf(of));
  return {
    say: (word) => channel.postMessage(word),
    listen: (hear) => {
      channel.onmessage = ({ data }: MessageEvent<LeadWord>) => hear(data);
    },
  };
}

/**
 * The same between pages that are opened from a folder: a browser may take each of them for a site of its own, which no
 * channel joins. A window and the one it was opened from can always write to each other.
 */
export function roomByWindow(of: string, address: string): RoomLink {
  let room: Window | null = null;
  return {
    tell: (word) => room?.postMessage({ of, word }, '*'),
    listen(hear) {
      addEventListener('message', ({ data, source }: MessageEvent<unknown>) => {
        const read = fromRoom.safeParse(data);
        if (!read.success || read.data.of !== of || !source || !('closed' in source)) return;
        // A window that was opened before this page was loaded again writes by itself.
        room = source;
        hear(read.data.word);
      });
    },
    open() {
      room = window.open(address, nameOf(of), SIZE);
    },
  };
}

const fromRoom = z.strictObject({ of: z.string(), word: roomWordSchema });

/** @param lead the window that this one was opened from */
export function leadByWindow(of: string, lead: Window): LeadLink {
  return {
    say: (word) => lead.postMessage({ of, word }, '*'),
    listen(hear) {
      addEventListener('message', ({ data, source }: MessageEvent<{ of?: unknown; word: LeadWord } | null>) => {
        if (source === lead && data?.of === of) hear(data.word);
      });
    },
  };
}

function nameOf(of: string): string {
  return `liftside-room-${of}`;
}
