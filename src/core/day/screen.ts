import type { Clip, DaySheet } from './day-sheet.ts';
import type { DayEvent } from './events.ts';

/** What the room sees. */
export interface Screen {
  /** Place in the clips of the block that is on; nothing when the block shows nothing, or all was shown. */
  readonly clip?: number;
  /** A step shown by its number, over whatever the plan shows. */
  readonly step?: { readonly lesson: string; readonly id: string };
  readonly playing: boolean;
  /** The programme stands still at the end of the clip, and the class talks. */
  readonly talking: boolean;
  readonly speed: number;
  readonly dark: boolean;
  /** Model year whose values somebody asked for. */
  readonly year?: number;
  /** Counts the times that a clip was started from its beginning. */
  readonly start: number;
  /** How much of the clip has run, s of programme, until `since`. */
  readonly ran: number;
  /** Moment from which on it has been running, s of the class. */
  readonly since: number;
}

/** Speeds to choose from. */
export const SPEEDS: readonly number[] = [0.5, 0.75, 1, 1.25, 1.5];

export const NOTHING_SHOWN: Screen = {
  playing: false,
  talking: false,
  speed: 1,
  dark: false,
  start: 0,
  ran: 0,
  since: 0,
};

/** The screen at the beginning of a block: its first clip runs at once. */
export function screenOf(clips: readonly Clip[], before: Screen, speed: number, at: number): Screen {
  const { dark, year } = before;
  const fresh = { ...NOTHING_SHOWN, start: before.start + 1, dark, speed, ...(year !== undefined && { year }) };
  return clips.length === 0 ? fresh : { ...fresh, clip: 0, playing: true, since: at };
}

/** What is shown now; nothing where only the clock of the block is. */
export function clipShown(sheet: DaySheet, clips: readonly Clip[], screen: Screen): Clip | undefined {
  const { step, clip } = screen;
  if (step) return sheet.steps.find((each) => each.lesson === step.lesson && each.id === step.id);
  return clip === undefined ? undefined : clips[clip];
}

/** How much of the clip has run at a moment, s of programme. */
export function ranAt({ ran, since, playing, speed }: Screen, at: number): number {
  return playing ? ran + Math.max(0, at - since) * speed : ran;
}

/**
 * What is left to show of a block, s of the class: the rest of the clip, those behind it, and the talks between.
 *
 * @param speed at which the plan shows it
 */
export function leftToShow(clips: readonly Clip[], screen: Screen, speed: number, at: number): number {
  if (screen.clip === undefined) return 0;
  const talk = (clip: Clip) => (clip.talk?.minutes ?? 0) * 60;
  return clips.slice(screen.clip).reduce((sum, clip, place) => {
    const length = clip.end - clip.start;
    const ran = place > 0 || screen.step ? 0 : Math.min(length, ranAt(screen, at));
    return sum + (length - ran) / speed + talk(clip);
  }, 0);
}

/** The screen after an event that concerns it. */
export function turnScreen(sheet: DaySheet, clips: readonly Clip[], screen: Screen, event: DayEvent): Screen {
  const { at } = event;
  const shown = clipShown(sheet, clips, screen);
  const from = (clip: number, playing: boolean): Screen => {
    const { step: _, clip: __, ...rest } = screen;
    const next = { ...rest, talking: false, start: screen.start + 1, ran: 0, since: at };
    return clip < clips.length ? { ...next, clip, playing } : { ...next, playing: false };
  };
  switch (event.kind) {
    case 'show': {
      if (event.step === undefined || event.lesson === undefined) return from(screen.clip ?? clips.length, false);
      const place = clips.findIndex(({ lesson, id }) => lesson === event.lesson && id === event.step);
      if (place !== -1) return from(place, screen.playing);
      const known = sheet.steps.some(({ lesson, id }) => lesson === event.lesson && id === event.step);
      if (!known) return screen;
      const step = { lesson: event.lesson, id: event.step };
      return { ...screen, step, playing: false, talking: false, start: screen.start + 1, ran: 0, since: at };
    }
    case 'play':
      if (!shown || screen.playing) return screen;
      if (screen.talking) return from((screen.clip ?? 0) + 1, true);
      return { ...screen, playing: true, dark: false, since: at };
    case 'pause':
      return screen.playing ? { ...screen, playing: false, ran: ranAt(screen, at), since: at } : screen;
    case 'again':
      return shown
        ? { ...screen, playing: true, talking: false, dark: false, start: screen.start + 1, ran: 0, since: at }
        : screen;
    case 'slower':
    case 'faster': {
      const nearest = SPEEDS.findLastIndex((speed) => speed <= screen.speed);
      const speed = SPEEDS[nearest + (event.kind === 'slower' ? -1 : 1)];
      return speed === undefined ? screen : { ...screen, ran: ranAt(screen, at), since: at, speed };
    }
    case 'clip-over':
      if (!shown || screen.talking) return screen;
      if (screen.step) return { ...screen, playing: false, ran: shown.end - shown.start, since: at };
      if (shown.talk) return { ...screen, playing: false, talking: true, ran: shown.end - shown.start, since: at };
      return from((screen.clip ?? 0) + 1, true);
    case 'year': {
      const { year: _, ...rest } = screen;
      return event.year === undefined ? rest : { ...rest, year: event.year };
    }
    case 'dark':
      return event.on && screen.playing
        ? { ...screen, dark: true, playing: false, ran: ranAt(screen, at), since: at }
        : { ...screen, dark: event.on };
    default:
      return screen;
  }
}
