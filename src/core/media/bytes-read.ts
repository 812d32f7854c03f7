import type { Stretch } from './analyse-args.ts';
import type { FilmChunk, FilmIndex, FilmTrack } from './mp4-index.ts';

/** What is read of a file: one of its streams, from when to when on the file's own clock, s. */
export interface Reading {
  /** Position of the stream; the first picture where left out. */
  readonly stream?: number;
  /** True: the stretch counts from the first sample of the stream. */
  readonly fromFirst?: true;
  readonly stretch: Stretch;
}

/** Bytes of a file, half open. */
export type Bytes = readonly [start: number, end: number];

/** ffmpeg reads so much of a file to learn what is in it, s and bytes, whatever is asked for (its `probesize`, and more). */
const PROBED = { seconds: 35, bytes: 8 << 20 } as const;
/** Tracks that are neither picture nor sound (timecode, chapters) are read whole, up to this size, bytes. */
const SMALL = 1 << 20;
/** What pictures may be shown later than they are decoded, and a little more, s. */
const EARLY = 2;
/** Decoders read on while what is wanted is under way, s and samples. */
const LATE = { seconds: 5, samples: 64, chunks: 2 } as const;

/**
 * Which bytes of a film a reader asks for that goes by its index, besides the index itself. More is never wrong.
 *
 * @returns nothing where all of it is needed
 */
export function bytesRead({ tracks }: FilmIndex, readings: readonly Reading[]): Bytes[] | undefined {
  const chunks: FilmChunk[] = [];
  for (const track of tracks) {
    const known = track.kind === 'vide' || track.kind === 'soun';
    const size = track.chunks.reduce((sum, { offset, end }) => sum + end - offset, 0);
    if (!known && size <= SMALL) chunks.push(...track.chunks);
    // Chapters are looked up wherever they lie.
    else if (track.kind === 'text' || track.kind === 'sbtl') return undefined;
  }
  chunks.push(...head(tracks));
  for (const { stream, fromFirst, stretch } of readings) {
    const track = stream === undefined ? tracks.find(({ kind }) => kind === 'vide') : tracks[stream];
    if (!track) return undefined;
    const later = fromFirst ? (track.chunks[0]?.time[0] ?? 0) + track.shift : 0;
    const [from, until] = [stretch[0] + later, stretch[1] + later];
    chunks.push(...within(track, [from, until], seekStart(tracks, track, from)));
  }
  return joinBytes(chunks.map(({ offset, end }) => [offset, end]));
}

/** Stretches in order, without those that others hold. */
export function joinBytes(bytes: readonly Bytes[]): Bytes[] {
  const joined: [number, number][] = [];
  for (const [start, end] of bytes.toSorted((a, b) => a[0] - b[0])) {
    const last = joined.at(-1);
    if (last && start <= last[1]) last[1] = Math.max(last[1], end);
    else joined.push([start, end]);
  }
  return joined;
}

/** What ffmpeg reads before anything else: all tracks side by side, in the order of time. */
function head(tracks: readonly FilmTrack[]): FilmChunk[] {
  const timed = tracks
    .flatMap(({ chunks, shift }) => chunks.map((chunk, i) => ({ chunk, first: i === 0, at: chunk.time[0] + shift })))
    .toSorted((a, b) => a.at - b.at);
  const begin = timed[0]?.at ?? 0;
  let bytes = 0;
  const last = timed.find(({ chunk, at }) => {
    bytes += chunk.bytes;
    return bytes >= PROBED.bytes || at - begin >= PROBED.seconds;
  });
  // It takes the track that lies behind as it finds it in the file, but for a second.
  const until = (last?.at ?? Number.POSITIVE_INFINITY) + EARLY;
  return timed.filter(({ first, at }) => first || at <= until).map(({ chunk }) => chunk);
}

/** ffmpeg seeks by the picture: other streams are read from the key picture on that lies before what is wanted. */
function seekStart(tracks: readonly FilmTrack[], track: FilmTrack, from: number): number {
  const wanted = from - EARLY;
  const leading = tracks.filter((each) => each === track || each.kind === 'vide');
  return Math.min(wanted, ...leading.map((each) => keyBefore(each, wanted)));
}

function keyBefore({ keys, shift }: FilmTrack, time: number): number {
  if (!keys) return time;
  let before = Number.NEGATIVE_INFINITY;
  for (const key of keys) if (key + shift <= time) before = Math.max(before, key + shift);
  return before;
}

function within({ chunks, shift, sample }: FilmTrack, [, until]: Stretch, from: number): FilmChunk[] {
  const end = until + Math.max(LATE.seconds, LATE.samples * sample) - shift;
  const start = from - shift - EARLY;
  const first = chunks.findIndex(({ time }) => time[1] >= start);
  if (first < 0) return chunks.slice(-1);
  const after = chunks.findIndex(({ time }, i) => i >= first && time[0] > end);
  return chunks.slice(Math.max(0, first - 1), after < 0 ? undefined : after + LATE.chunks);
}
