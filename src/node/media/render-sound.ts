import { createReadStream, createWriteStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import {
  AAC_FRAME,
  type Blocks,
  blocksWithin,
  type Levelling,
  type Measured,
  MOST_GAIN,
  planHeard,
  planLevelling,
  planSound,
  SAMPLE_RATE,
  type SoundLevel,
  type SoundPiece,
  type SoundPlan,
  type Stretch,
} from '../../core/media/index.ts';
import { type Range, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { runJsonJobs, type Wanted, type Workplace, want } from './pool.ts';
import type { Prepared } from './prepare.ts';
import { soundSources } from './sound-sources.ts';
import { encodeSound, measured, measureSound } from './tasks.ts';

/**
 * Ceiling given to the limiter, dBFS: under R 128's −1 dBTP, since what lies between samples and the encoder add up to
 * 2 dB to hard knocks (measured).
 */
const LIMIT = -3;
/** How often the level is made up for what the limiter took. */
const LIMITED_ROUNDS = 3;
/** bits per second, by channels */
const BIT_RATE = { mono: 160_000, stereo: 256_000 } as const;

export interface PlannedSound {
  readonly plan: SoundPlan;
  readonly levelling: Levelling;
  readonly wanted: readonly Wanted[];
}

/**
 * First pass: measures what is kept; then plans the second pass, which encodes it at the wanted level.
 *
 * @param target LUFS; nothing: the level stays as it is
 * @param speech where somebody speaks, which then is what comes to the target; the whole programme when left out
 * @returns nothing where no camera file has sound
 */
export async function planRenderedSound(
  prepared: Prepared,
  target: number | undefined,
  place: Workplace,
  speech: readonly Range<'recording'>[] = [],
): Promise<PlannedSound | undefined> {
  const { sources, files, channels } = soundSources(prepared);
  if (sources.length === 0 || prepared.kept.length === 0) return undefined;
  const plan = planSound(prepared.kept, sources, prepared.rate);
  const inputs = (pieces: readonly SoundPiece[]) => {
    const used = [...new Set(pieces.flatMap((p) => (p.kind === 'sound' ? [p.source] : [])))];
    const chosen = used.flatMap((i) => files[i] ?? []);
    return {
      inputs: chosen.map(({ file }) => ({ path: file.path, content: file.content })),
      described: chosen.map(({ file, stream, start, drift }) => ({ stream, start, clock: file.clock, drift })),
      pieces: pieces.map((p) => (p.kind === 'sound' ? { ...p, source: used.indexOf(p.source) } : p)),
    };
  };
  const heard = planHeard(prepared.kept, sources, prepared.rate);
  const measure = async (level?: SoundLevel) => {
    place.progress.start(level ? 'listening with peaks held' : 'listening');
    const stretches = heard.map(({ pieces }) => {
      const cut = inputs(pieces);
      const count = pieces.reduce((sum, piece) => sum + piece.count, 0);
      return want(
        measureSound,
        cut.inputs,
        { pieces: cut.pieces, inputs: cut.described, channels, ...(level && { level }) },
        count / SAMPLE_RATE,
      );
    });
    return runJsonJobs(stretches, measured, place);
  };
  const levelled = (found: readonly Measured[], to: number) =>
    planLevelling(
      found,
      to,
      found.flatMap(({ blocks }, i) => spokenBlocks(blocks, heard[i]?.from ?? 0, speech)),
    );
  let levelling: Levelling = { gain: 0, limit: false };
  if (target !== undefined) {
    levelling = levelled(await measure(), target);
    // Holding peaks takes loudness away: what it comes to is measured, and made up for.
    for (let round = 0; levelling.limit && round < LIMITED_ROUNDS; round++) {
      const held = levelled(await measure({ gain: levelling.gain, ceiling: LIMIT }), target);
      if (held.gain === 0) break;
      levelling = { ...levelling, gain: Math.min(MOST_GAIN, Number((levelling.gain + held.gain).toFixed(1))) };
    }
  }
  const level = { gain: levelling.gain, ceiling: levelling.limit ? LIMIT : null };
  const wanted = plan.runs.map((run) => {
    const cut = inputs(run.pieces);
    return want(
      encodeSound,
      cut.inputs,
      {
        pieces: cut.pieces,
        inputs: cut.described,
        channels,
        skip: run.skip,
        count: run.count,
        level,
        bitRate: channels === 1 ? BIT_RATE.mono : BIT_RATE.stereo,
      },
      (run.count * AAC_FRAME) / SAMPLE_RATE,
    );
  });
  return { plan, levelling, wanted };
}

/** Of the blocks of a stretch, without its first three, those within speech. @param from recording sample of its beginning */
function spokenBlocks(blocks: Blocks, from: number, speech: readonly Range<'recording'>[]): Blocks {
  const at = (ticks: number) => ticks / TICKS_PER_SECOND - from / SAMPLE_RATE;
  const length = blocks.length / 10 + 1;
  const within = speech
    .map(({ start, end }): Stretch => [Math.max(0, at(start)), Math.min(length, at(end))])
    .filter(([start, end]) => end > start);
  return blocksWithin([0, 0, 0, ...blocks], within);
}

/** Joins runs of sound, one after the other: whole frames need nothing between them. */
export async function joinSound(runs: readonly string[], path: string, signal: AbortSignal): Promise<void> {
  async function* bytes() {
    for (const run of runs) yield* createReadStream(run);
  }
  await pipeline(bytes, createWriteStream(path), { signal });
}
