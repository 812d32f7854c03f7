import { type FrameRate, TICKS_PER_SECOND } from '../time/index.ts';
import { frameTotal, type KeptFrames } from './kept-frames.ts';

/** Sampling rate of rendered sound, Hz. */
export const SAMPLE_RATE = 48_000;
/** Samples of an AAC frame (ISO/IEC 14496-3, AAC-LC). */
export const AAC_FRAME = 1024;
/** Fade at each side of a join, samples: 8 ms, too short to hear, long enough not to click (common practice, no source). */
export const FADE = 384;

const TICKS_PER_SAMPLE = TICKS_PER_SECOND / SAMPLE_RATE;
/**
 * Sound is placed so that its AAC frames begin at the same samples of the recording wherever that is within this of the
 * exact place, samples (9.8 ms; 10 ms are promised): after a cut elsewhere has moved, the same frames then serve again.
 * Where it is too far off, which many cuts bring about, sound is placed half a frame beside.
 */
const NEAR = 470;
/** Frames encoded before and after a run and thrown away, so that runs fit together as if encoded in one go. */
const BEFORE = 8;
const AFTER = 3;
/** A run ends this many frames before a join, so that it does not hear what comes after. */
const CLEAR_OF_JOIN = 6;

/** Sound of one file on the recording's clock. */
export interface SoundSource {
  /** Recording sample of the file's first sample of sound; may lie before 0. */
  readonly first: number;
  readonly samples: number;
  /** Recording samples that this file answers for: the stretch its picture covers. */
  readonly from: number;
  readonly until: number;
  /** Id of the angle; left out for the recording's own camera. */
  readonly angle?: string;
}

/** A stretch of PCM that goes into a run. */
export type SoundPiece = {
  readonly count: number;
  readonly fadeIn: boolean;
  readonly fadeOut: boolean;
} & (
  | { readonly kind: 'sound'; readonly source: number /** Samples from the file's first one. */; readonly from: number }
  | { readonly kind: 'silence' }
);

/** AAC frames that are encoded in one go. */
export interface SoundRun {
  /** AAC frame of the track that the run begins with; −1 for the first, whose first packet only sets the decoder up. */
  readonly frame: number;
  readonly count: number;
  /** Packets of the encoder to throw away before the run's first. */
  readonly skip: number;
  /** What the encoder is fed, in order; no gaps. */
  readonly pieces: readonly SoundPiece[];
}

export interface SoundPlan {
  readonly runs: readonly SoundRun[];
  /** Samples of the track before the programme begins; less than a frame. */
  readonly lead: number;
  /** Samples of the track. */
  readonly samples: number;
}

interface TrackRun {
  /** Samples of the track between which it is heard. */
  readonly start: number;
  readonly end: number;
  /** Add to a sample of the track to get the recording sample. */
  readonly shift: number;
  /** The same stretch in exact recording samples, which stay as they are when cuts elsewhere move. */
  readonly from: number;
  readonly until: number;
}

/**
 * What to feed the encoder, in runs of whole AAC frames that can be encoded side by side.
 *
 *     programme   |-----a-----|---------b---------|
 *     AAC frames  |..|..|..|..|..|..|..|..|..|..|..|      runs end shortly before a join, and at fixed places
 *     runs        |----1---|-------2------|----3--|       of the recording in between
 *
 * A run depends on the sound it holds and a few frames around it, on nothing else: after a moved cut most are the same.
 *
 * @param sources in recording order, not overlapping in `from` … `until`
 * @param chunk longest run where nothing is cut, s
 */
export function planSound(
  kept: readonly KeptFrames[],
  sources: readonly SoundSource[],
  rate: FrameRate,
  chunk = 30,
): SoundPlan {
  const length = sampleAt(frameTotal(kept), rate);
  if (length === 0) return { runs: [], lead: 0, samples: 0 };
  const spans = kept.map(({ first, count, at }) => {
    const from = sampleAt(first, rate);
    return { from, until: sampleAt(first + count, rate), exact: from - sampleAt(at, rate) };
  });
  const lead = leadFor(spans.map(({ exact }) => exact));
  const samples = lead + length;
  const shifted = spans.map(({ from, until, exact }) => ({ from, until, shift: onFrames(exact - lead) }));
  // Sound changes at the very sample where the later run was cut, also where that is moved against its picture: what a
  // join sounds like then does not hang on where in the programme it lies.
  const starts: number[] = [];
  for (const { from, shift } of shifted) starts.push(Math.max(starts.at(-1) ?? 0, from - shift));
  const placed = shifted.map((run, i): TrackRun => ({ ...run, start: starts[i] ?? 0, end: starts[i + 1] ?? samples }));
  const frames = Math.ceil(samples / AAC_FRAME);
  const borders = [-1, ...placed.flatMap((p, i) => bordersIn(p, i < placed.length - 1, chunk)), frames];
  const runs = borders.slice(0, -1).map((frame, i): SoundRun => {
    const until = borders[i + 1] ?? frames;
    const fed = Math.max(0, frame - BEFORE);
    const pieces = piecesOf(placed, sources, fed * AAC_FRAME, (until + AFTER) * AAC_FRAME, samples);
    // The encoder's packet number i plays the frame i − 1 of what it was fed.
    return { frame, count: until - frame, skip: frame - fed + 1, pieces };
  });
  return { runs, lead, samples };
}

/**
 * What is kept of the sound, as stretches to be measured side by side; their borders lie at fixed places of the
 * recording, so that moving a cut changes only the stretches it touches.
 *
 * @param chunk longest stretch, s
 * @returns each with the sample of the recording where it begins
 */
export function planHeard(
  kept: readonly KeptFrames[],
  sources: readonly SoundSource[],
  rate: FrameRate,
  chunk = 120,
): { readonly from: number; readonly pieces: readonly SoundPiece[] }[] {
  const size = chunk * SAMPLE_RATE;
  return kept.flatMap(({ first, count }) => {
    const end = sampleAt(first + count, rate);
    const stretches: { from: number; pieces: SoundPiece[] }[] = [];
    for (let at = sampleAt(first, rate); at < end; ) {
      const until = Math.min(end, (Math.floor(at / size) + 1) * size);
      const pieces = recordingPieces(sources, at, until).map((p) => ({ ...p, fadeIn: false, fadeOut: false }));
      stretches.push({ from: at, pieces });
      at = until;
    }
    return stretches;
  });
}

/**
 * Where the track has to begin for the recording's frames to lie near their pictures: for as many runs as can be, and
 * then for the one that lies farthest off.
 *
 * @param exact shifts that would put sound exactly with its picture
 */
function leadFor(exact: readonly number[]): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  for (let lead = 0; lead < AAC_FRAME; lead++) {
    let [far, most] = [0, 0];
    for (const shift of exact) {
      const off = Math.abs(shift - lead - wholeFrames(shift - lead));
      if (off > NEAR) far++;
      most = Math.max(most, off);
    }
    const cost = far + most / AAC_FRAME;
    if (cost < least) [best, least] = [lead, cost];
  }
  return best;
}

/** The nearest whole number of frames, samples. */
function wholeFrames(samples: number): number {
  return Math.round(samples / AAC_FRAME) * AAC_FRAME;
}

/** The nearest shift that keeps the recording's AAC frames whole, or, where that is too far off, half a frame off. */
function onFrames(exact: number): number {
  const whole = wholeFrames(exact);
  return Math.abs(exact - whole) <= NEAR ? whole : whole + (Math.sign(exact - whole) * AAC_FRAME) / 2;
}

function sampleAt(frame: number, rate: FrameRate): number {
  return Math.round((frame * rate.ticksPerFrame) / TICKS_PER_SAMPLE);
}

/**
 * Frames inside a kept run where one run of sound ends and the next begins: soon after its join, soon before the next
 * one, and at fixed places in between. All are found on the recording's own frames.
 */
function bordersIn({ shift, from, until }: TrackRun, joined: boolean, chunk: number): number[] {
  const frameStart = (sample: number) => Math.floor(sample / AAC_FRAME) * AAC_FRAME;
  // Two frames more than needed: one for the frame the join lies in, one for how far off the sound may be placed.
  const first = frameStart(from) + (BEFORE + 3) * AAC_FRAME;
  const last = frameStart(until) - (CLEAR_OF_JOIN + 2) * AAC_FRAME;
  if (last < first) return [];
  const size = Math.max(1, Math.round((chunk * SAMPLE_RATE) / AAC_FRAME)) * AAC_FRAME;
  const places = new Set([first]);
  for (let at = Math.ceil(first / size) * size; at <= last; at += size) places.add(at);
  if (joined) places.add(last);
  return [...places].map((at) => Math.ceil((at - shift) / AAC_FRAME));
}

/** The assembled sound between two samples of the track; silence outside the programme. */
function piecesOf(
  placed: readonly TrackRun[],
  sources: readonly SoundSource[],
  start: number,
  end: number,
  samples: number,
): SoundPiece[] {
  const pieces: SoundPiece[] = [];
  const silence = (count: number) => {
    if (count > 0) pieces.push({ kind: 'silence', count, fadeIn: false, fadeOut: false });
  };
  silence((placed[0]?.start ?? 0) - start);
  placed.forEach((run, i) => {
    const from = Math.max(start, run.start);
    const until = Math.min(end, run.end);
    if (from >= until) return;
    const inside = recordingPieces(sources, from + run.shift, until + run.shift);
    const [starts, ends] = [from === run.start, until === run.end && (i < placed.length - 1 || until === samples)];
    inside.forEach((piece, n) => {
      const [before, after] = [inside[n - 1], inside[n + 1]];
      pieces.push({
        ...piece,
        fadeIn: before ? !goesOn(sources, before, piece) : starts,
        fadeOut: after ? !goesOn(sources, piece, after) : ends,
      });
    });
  });
  silence(end - Math.max(start, samples));
  return pieces;
}

type Unfaded =
  | { readonly kind: 'sound'; readonly source: number; readonly from: number; readonly count: number }
  | { readonly kind: 'silence'; readonly count: number };

/** True where sound goes on from one stretch to the next: in files that a camera split, not from recorder to recorder. */
function goesOn(sources: readonly SoundSource[], a: Unfaded, b: Unfaded): boolean {
  return a.kind === 'sound' && b.kind === 'sound' && sources[a.source]?.angle === sources[b.source]?.angle;
}

/** Recording samples as stretches of files and, where no file has sound, silence. */
function recordingPieces(sources: readonly SoundSource[], start: number, end: number): Unfaded[] {
  const pieces: Unfaded[] = [];
  const silence = (until: number, at: number) => {
    if (until > at) pieces.push({ kind: 'silence', count: until - at });
  };
  let at = start;
  sources.forEach((source, index) => {
    const from = Math.max(at, source.first, source.from);
    const until = Math.min(end, source.first + source.samples, source.until);
    if (from >= until) return;
    silence(from, at);
    pieces.push({ kind: 'sound', source: index, from: from - source.first, count: until - from });
    at = until;
  });
  silence(end, at);
  return pieces;
}
