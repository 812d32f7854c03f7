import type { Line } from '../script/lines.ts';
import type { Shot } from '../script/timeline.ts';
import { INSTRUCTOR, SAMPLE_RATE, SOMEONE, speak } from './speech.ts';

/** A sentence with its place on the recording's clock, s. */
export interface Spoken {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly gain: number;
  readonly samples: Float32Array;
}

/** A stretch in which hands work, s on the recording's clock. */
export interface Working {
  readonly start: number;
  readonly end: number;
}

/** What can be heard in a scene beside the room. */
export interface SceneSound {
  readonly spoken: readonly Spoken[];
  readonly working: readonly Working[];
  /** When the wrench lands or the sticks meet, s on the recording's clock. */
  readonly knock?: number;
}

const BREATH = 0.6;
const LEAD = 0.9;
/** Root mean square of speech, of full scale. */
const LEVEL = 0.07;

/** Spreads what is said over a scene; the pauses in a kept step are filled with work. @throws Error where it does not fit */
export function soundOf({ scene, start, end }: Shot, lines: readonly Line[]): SceneSound {
  const from = start / 10;
  const seconds = (end - start) / 10;
  const takes = lines.map((line) =>
    line.sentences.map((text) => ({
      text,
      aside: line.aside,
      samples: speak(text, line.aside ? SOMEONE : INSTRUCTOR),
    })),
  );
  const lengths = takes.map(
    (take) => take.reduce((sum, { samples }) => sum + samples.length / SAMPLE_RATE, 0) + BREATH * (take.length - 1),
  );
  const free = seconds - LEAD - lengths.reduce((sum, length) => sum + length, 0);
  if (free < 0.6 * takes.length)
    throw new Error(`${scene.kind} ${scene.of}: what is said needs ${(-free + 0.6 * takes.length).toFixed(1)} s more`);
  const lead = scene.kind === 'dropped' ? LEAD + 5 : LEAD;
  const rest = takes.length ? (free - (lead - LEAD)) / takes.length : 0;
  const spoken: Spoken[] = [];
  const working: Working[] = [];
  let at = from + lead;
  for (const take of takes) {
    for (const { text, samples, aside } of take) {
      const stop = at + samples.length / SAMPLE_RATE;
      spoken.push({ text, start: at, end: stop, gain: (LEVEL / level(samples)) * (aside ? 0.22 : 1), samples });
      at = stop + BREATH;
    }
    at -= BREATH;
    if (scene.kind === 'step' && rest > 2.4) working.push({ start: at + 0.7, end: at + rest - 0.6 });
    at += rest;
  }
  const knock = scene.kind === 'dropped' ? from + 2.9 : scene.kind === 'slate' ? from + seconds * 0.7 : undefined;
  return { spoken, working, ...(knock === undefined ? {} : { knock }) };
}

/** Root mean square of the samples; never 0. */
function level(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, s) => sum + s * s, 0) / Math.max(1, samples.length)) || 1;
}
