import type { JobSheet, LessonData } from '../pages/index.ts';

/** What a lesson asks for: its steps as the programme shows them, and its readings. */
export interface Asked {
  readonly lesson: string;
  /** Programme seconds; empty where no film shows the step: then its tick counts. */
  readonly steps: readonly { readonly id: string; readonly start: number; readonly end: number }[];
  /** Names of the readings to be taken. */
  readonly readings: readonly string[];
}

/** What somebody has done of a lesson. */
export interface Progress {
  /** Of each step, a bit for each of its sixteen parts of equal length that was watched. */
  readonly watched: readonly number[];
  readonly ticked: readonly boolean[];
  readonly taken: readonly boolean[];
  /** Where they are, programme seconds. */
  readonly at: number;
}

const PARTS = 16;
/** One part of sixteen may be missed: nobody watches a step to its last frame. */
const ENOUGH = PARTS - 1;

/** What a page's own data ask for. @param data of its player; nothing where there is no film */
export function askedOf({ lesson, steps, measured }: JobSheet, data: LessonData | undefined): Asked {
  const times = new Map((data?.steps ?? []).map(({ id, start, end }) => [id, { start, end }]));
  return {
    lesson,
    steps: steps.map(({ id }) => ({ id, ...(times.get(id) ?? { start: 0, end: 0 }) })),
    readings: measured.map(({ step, spec }) => readingName(step, spec)),
  };
}

/** A reading among those of its lesson. */
export function readingName(step: string, spec: string): string {
  return `${step}.${spec}`;
}

export function nothingDone({ steps, readings }: Asked): Progress {
  return { watched: steps.map(() => 0), ticked: steps.map(() => false), taken: readings.map(() => false), at: 0 };
}

/** A stretch was played without a jump. @param from programme seconds @param to programme seconds */
export function played(asked: Asked, progress: Progress, from: number, to: number): Progress {
  const watched = asked.steps.map(({ start, end }, i) => {
    let bits = progress.watched[i] ?? 0;
    // A part counts when its middle was on screen.
    for (let part = 0; part < PARTS; part++) {
      const middle = start + ((part + 0.5) / PARTS) * (end - start);
      if (end > start && from <= middle && middle < to) bits |= 1 << part;
    }
    return bits;
  });
  return { ...progress, watched, at: to };
}

export interface Sum {
  readonly watched: number;
  readonly steps: number;
  readonly taken: number;
  readonly readings: number;
  /** 0 … 1 */
  readonly share: number;
  /** Every step is watched (ticked, where there is no film of it) and every reading taken. */
  readonly complete: boolean;
}

export function sumOf(asked: Asked, progress: Progress): Sum {
  const watched = asked.steps.filter(({ start, end }, i) =>
    end > start ? bitsIn(progress.watched[i] ?? 0) >= ENOUGH : progress.ticked[i] === true,
  ).length;
  const taken = progress.taken.filter(Boolean).length;
  const [steps, readings] = [asked.steps.length, asked.readings.length];
  const all = steps + readings;
  return {
    ...{ watched, steps, taken, readings },
    share: all === 0 ? 0 : (watched + taken) / all,
    complete: all > 0 && watched + taken === all,
  };
}

function bitsIn(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count++;
  return count;
}

/** Progress as a short text that a school's system keeps, with a mark of the lesson it belongs to. */
export function progressText(asked: Asked, { watched, ticked, taken, at }: Progress): string {
  const parts = watched.map((bits) => bits.toString(16).padStart(4, '0')).join('');
  const flags = [...ticked, ...taken].map((flag) => (flag ? '1' : '0')).join('');
  return `1;${markOf(asked)};${at.toFixed(1)};${parts};${flags}`;
}

/** Nothing where the text is another version's, or that of a lesson with other steps. */
export function readProgress(asked: Asked, text: string): Progress | undefined {
  const [version, mark, at = '', parts = '', flags = ''] = text.split(';');
  const { steps, readings } = asked;
  if (version !== '1' || mark !== markOf(asked)) return undefined;
  if (!/^\d+\.\d$/.test(at) || !/^[0-9a-f]*$/.test(parts) || !/^[01]*$/.test(flags)) return undefined;
  if (parts.length !== 4 * steps.length || flags.length !== steps.length + readings.length) return undefined;
  const set = [...flags].map((flag) => flag === '1');
  return {
    watched: steps.map((_, i) => Number.parseInt(parts.slice(4 * i, 4 * i + 4), 16)),
    ticked: set.slice(0, steps.length),
    taken: set.slice(steps.length),
    at: Number(at),
  };
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; RFC 9923), of what the lesson asks for. */
function markOf({ lesson, steps, readings }: Asked): string {
  let hash = 0x811c9dc5;
  const text = JSON.stringify([lesson, steps.map(({ id, start, end }) => [id, end > start]), readings]);
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(16).padStart(8, '0');
}
