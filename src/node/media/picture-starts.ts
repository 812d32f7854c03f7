import { EncodedPacketSink, type InputVideoTrack } from 'mediabunny';
import { TICKS_PER_SECOND } from '../../core/time/index.ts';

/** Places spread over a file where its pictures are looked at, and how many at each. */
const PLACES = 8;
const PICTURES = 24;
/** Packets come in the order of decoding: at both ends of a stretch some of its neighbours may be missing. */
const LOOSE = 6;
/** How far a picture of an even rate may lie from its place, frames: containers that keep whole milliseconds round. */
const SLACK = 0.25;

/**
 * True where pictures lie on the grid of a rate, as far as a look at places spread over the file can tell. A phone
 * that is even in daylight may begin to wander where it gets dark.
 *
 * @param from first picture on the file's clock, ticks
 * @param length ticks
 * @param frame ticks
 */
export async function isEven(track: InputVideoTrack, from: number, length: number, frame: number): Promise<boolean> {
  const sink = new EncodedPacketSink(track);
  for (let place = 0; place < PLACES; place++) {
    const at = (from + (length * place) / PLACES) / TICKS_PER_SECOND;
    let packet = await sink.getPacket(at, { metadataOnly: true });
    const shown: number[] = [];
    while (packet && shown.length < PICTURES) {
      shown.push((packet.timestamp * TICKS_PER_SECOND - from) / frame);
      packet = await sink.getNextPacket(packet, { metadataOnly: true });
    }
    if (!follows(shown.toSorted((a, b) => a - b).slice(place === 0 ? 0 : LOOSE, -LOOSE))) return false;
  }
  return true;
}

/** @param shown frames of the grid, in order */
function follows(shown: readonly number[]): boolean {
  return shown.every((picture, i) => {
    const gap = picture - (shown[i - 1] ?? picture - 1);
    return Math.abs(picture - Math.round(picture)) <= SLACK && Math.abs(gap - 1) <= SLACK;
  });
}

/**
 * As `isEven`, for a file that only ffprobe can read.
 *
 * @param list presentation times on the file's clock at places in ffprobe's notation, s
 */
export async function isEvenToFfprobe(
  list: (places: string) => Promise<number[]>,
  from: number,
  length: number,
  frame: number,
): Promise<boolean> {
  for (let place = 0; place < PLACES; place++) {
    const at = (from + (length * place) / PLACES) / TICKS_PER_SECOND;
    const times = await list(`${at.toFixed(3)}%+#${PICTURES}`);
    const shown = times.map((time) => (time * TICKS_PER_SECOND - from) / frame);
    if (!follows(shown.toSorted((a, b) => a - b).slice(place === 0 ? 0 : LOOSE, -LOOSE))) return false;
  }
  return true;
}

/**
 * When each picture of a track is shown, from the container's index: nothing is decoded.
 *
 * @param from first picture on the file's clock, ticks
 * @param length ticks; pictures from there on are left out
 * @returns ticks from the first picture, in order, no two the same
 */
export async function pictureStarts(track: InputVideoTrack, from: number, length: number): Promise<number[]> {
  const seconds: number[] = [];
  for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true }))
    seconds.push(packet.timestamp);
  return startsFrom(seconds, from, length);
}

/**
 * Presentation times as a probe lists them, as starts on the grid of a recording.
 *
 * @param seconds on the file's clock, in any order
 * @param from first picture on the file's clock, ticks
 * @param length ticks; pictures from there on are left out
 */
export function startsFrom(seconds: readonly number[], from: number, length: number): number[] {
  const starts = Float64Array.from(seconds, (time) => Math.round(time * TICKS_PER_SECOND) - from).sort();
  const kept: number[] = [];
  for (const start of starts) if (start >= 0 && start < length && start > (kept.at(-1) ?? -1)) kept.push(start);
  return kept;
}
