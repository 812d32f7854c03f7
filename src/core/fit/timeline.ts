import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import { must } from '../time/index.ts';
import type { ClassFit } from './fit-class.ts';
import { clockText, lengthText } from './plan/words.ts';

/** A block in the timeline picture; times in s from the start of the class. */
export interface TimelineBar {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  /** 0 is the main lane, 1 and up what runs at the same time. */
  readonly lane: number;
  readonly label: string;
}

/** What the timeline of a class shows, in a picture or in text. */
export interface Timeline {
  readonly slotSeconds: number;
  readonly plannedSeconds: number;
  /** End times between which 8 of 10 classes end. */
  readonly band: { readonly from: number; readonly to: number };
  /** End of the time axis, whole quarters of an hour. */
  readonly axisSeconds: number;
  readonly lanes: number;
  readonly bars: readonly TimelineBar[];
  /** When the class has to end. */
  readonly endClock: string;
  readonly ticks: readonly { readonly at: number; readonly clock: string }[];
  /** The picture in one sentence. */
  readonly text: string;
}

const QUARTER = 15 * 60;

export function timelineOf({ plan, layout, choice, timetable, risk }: ClassFit, locale: Locale = ENGLISH): Timeline {
  const { t, plural } = wording(locale);
  const bars = plan.blocks.flatMap((block, index): TimelineBar[] => {
    const at = timetable.blocks[index];
    const group = choice[index]?.group;
    if (!at || group === undefined) return [];
    const lane = must(layout.groups[group], 'a group').lanes.findIndex((members) => members.includes(index));
    const label = `${clockText(plan, at.start)} ${block.title}, ${lengthText(at.end - at.start)}`;
    return [{ id: block.id, title: block.title, kind: block.kind, start: at.start, end: at.end, lane, label }];
  });
  const band = { from: risk.end.p10, to: risk.end.p90 };
  const axisSeconds = Math.ceil(Math.max(plan.slotSeconds, timetable.end, band.to) / QUARTER) * QUARTER;
  const slack = plan.slotSeconds - timetable.end;
  const step = axisSeconds > 4 * 3600 ? 4 * QUARTER : axisSeconds > 2 * 3600 ? 2 * QUARTER : QUARTER;
  return {
    slotSeconds: plan.slotSeconds,
    plannedSeconds: timetable.end,
    band,
    axisSeconds,
    lanes: 1 + Math.max(0, ...bars.map(({ lane }) => lane)),
    bars: bars.toSorted((a, b) => a.start - b.start || a.lane - b.lane),
    ticks: Array.from({ length: Math.floor(axisSeconds / step) + 1 }, (_, i) => ({
      at: i * step,
      clock: clockText(plan, i * step),
    })),
    text: [
      plural(bars.length, '{n} block from {from} to {to}', '{n} blocks from {from} to {to}', {
        from: clockText(plan, 0),
        to: clockText(plan, timetable.end),
      }),
      slack >= 0
        ? t(', {length} free in the slot', { length: lengthText(slack) })
        : t(', {length} past the slot', { length: lengthText(slack) }),
      t('; 80 % of classes end between {from} and {to}', {
        from: clockText(plan, band.from),
        to: clockText(plan, band.to),
      }),
    ].join(''),
    endClock: clockText(plan, plan.slotSeconds),
  };
}

const BAND_WORDS = '80 % of classes end in this span';

/**
 * The timeline as text, one line a lane: a letter a block, `.` free, `|` the end of the slot, which stands between two
 * columns so that it hides no block, and below it `~` where 8 of 10 classes end.
 *
 * @param width columns
 */
export function timelineText(timeline: Timeline, width = 72): string[] {
  const { axisSeconds, bars, slotSeconds, band, ticks } = timeline;
  const column = (at: number) => Math.min(width, Math.round((at / axisSeconds) * width));
  const letters = new Map(bars.map(({ id }, i) => [id, LETTERS[i % LETTERS.length] ?? '?']));
  const lanes = Array.from({ length: timeline.lanes }, (_, lane) => {
    const cells = Array.from({ length: width + 1 }, (_, i): string =>
      lane === 0 && i < column(slotSeconds) ? '.' : ' ',
    );
    for (const bar of bars.filter((b) => b.lane === lane))
      for (let i = column(bar.start); i < Math.max(column(bar.end), column(bar.start) + 1); i++)
        cells[i] = letters.get(bar.id) ?? '?';
    return cells
      .toSpliced(column(slotSeconds), 0, lane === 0 ? '|' : ' ')
      .join('')
      .trimEnd();
  });
  const axis = Array.from({ length: width + 6 }, () => ' ');
  // Behind the end mark everything stands one further.
  const place = (at: number) => column(at) + (at > slotSeconds ? 1 : 0);
  for (const { at, clock } of ticks) for (const [i, letter] of [...clock].entries()) axis[place(at) + i] = letter;
  const [from, to] = [place(band.from), place(band.to)];
  const span = '~'.repeat(to - from + 1);
  const before = from > BAND_WORDS.length;
  const risk = before ? `${BAND_WORDS} ${span}`.padStart(to + 1) : `${' '.repeat(from)}${span} ${BAND_WORDS}`;
  return [axis.join('').trimEnd(), ...lanes, risk];
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz';
