import { must } from '../time/index.ts';
import type { Stretch } from './analyse-args.ts';

/**
 * Where the bytes of a film lie, from the index of its container (ISO/IEC 14496-12, clauses 8.3 to 8.7, and QuickTime,
 * which it comes from): enough to fetch a part of a file that lies elsewhere.
 */
export interface FilmIndex {
  /** In the order of the file, as ffmpeg counts streams. */
  readonly tracks: readonly FilmTrack[];
}

export interface FilmTrack {
  /** `vide`, `soun`, or what else the file calls it. */
  readonly kind: string;
  /** What to add to times of its samples to come to the file's own clock, s. */
  readonly shift: number;
  /** Samples of it that can be decoded without those before them, s; nothing where all can. */
  readonly keys: Float64Array | undefined;
  readonly chunks: readonly FilmChunk[];
  /** Mean length of a sample, s. */
  readonly sample: number;
}

/** Samples of one track that lie in a row. */
export interface FilmChunk {
  readonly offset: number;
  /** One past its last byte, or past what may be its last one. */
  readonly end: number;
  /** What its samples are told to take. */
  readonly bytes: number;
  /** In order of decoding, s. */
  readonly time: Stretch;
}

/** More of them would be no film of this world, but could fill the memory. */
const MOST_CHUNKS = 5_000_000;

/**
 * Reads the index of a film, the body of its `moov` box.
 *
 * @param bytes of the file
 * @returns nothing where the file keeps its index in another way: such a one has to be there as a whole
 */
export function readFilmIndex(moov: Uint8Array, bytes: number): FilmIndex | undefined {
  try {
    const boxes = boxesOf(view(moov));
    // Films in fragments, or with a packed index.
    if (boxes.some(({ type }) => type === 'mvex' || type === 'cmov')) return undefined;
    const movieScale = timescale(one(boxes, 'mvhd'));
    const traks = boxes.filter(({ type }) => type === 'trak').map(({ body }) => readTrack(body, movieScale));
    const starts = Float64Array.from(new Set(traks.flatMap(({ parts }) => parts.map(({ offset }) => offset)))).sort();
    const tracks = traks.map(({ parts, ...track }): FilmTrack => {
      const chunks = parts.map(({ offset, size, time }) => {
        // Some recorders write sizes of sound in units of their own: it reaches to whatever comes next.
        const end = Math.max(offset + size, firstAbove(starts, offset) ?? bytes);
        if (end > bytes || offset <= 0) throw new RangeError('a chunk lies outside of the file');
        return { offset, end, bytes: size, time };
      });
      return { ...track, chunks };
    });
    return tracks.length > 0 ? { tracks } : undefined;
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** @param sorted in rising order */
function firstAbove(sorted: Float64Array, value: number): number | undefined {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (must(sorted[middle], 'a number of the row') > value) high = middle;
    else low = middle + 1;
  }
  return sorted[low];
}

interface Box {
  readonly type: string;
  readonly body: DataView;
}

function view(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function boxesOf(from: DataView): Box[] {
  const boxes: Box[] = [];
  for (let at = 0; at + 8 <= from.byteLength; ) {
    const length = from.getUint32(at);
    const type = String.fromCharCode(...[4, 5, 6, 7].map((i) => from.getUint8(at + i)));
    // Lists of QuickTime may end with a zero.
    if (length === 0) break;
    if (length < 8 || at + length > from.byteLength) throw new RangeError(`the box ${type} is cut short`);
    boxes.push({ type, body: new DataView(from.buffer, from.byteOffset + at + 8, length - 8) });
    at += length;
  }
  return boxes;
}

function one(boxes: readonly Box[], type: string): DataView {
  const found = boxes.filter((box) => box.type === type);
  if (found.length !== 1 || !found[0]) throw new RangeError(`${found.length} boxes ${type}`);
  return found[0].body;
}

/** Of `mvhd` and `mdhd`: units a second. */
function timescale(body: DataView): number {
  const scale = body.getUint32(body.getUint8(0) === 1 ? 20 : 12);
  if (scale === 0) throw new RangeError('it counts no time');
  return scale;
}

interface Part {
  readonly offset: number;
  readonly size: number;
  readonly time: Stretch;
}

function readTrack(
  trak: DataView,
  movieScale: number,
): Pick<FilmTrack, 'kind' | 'shift' | 'keys' | 'sample'> & { readonly parts: readonly Part[] } {
  const boxes = boxesOf(trak);
  const media = boxesOf(one(boxes, 'mdia'));
  const scale = timescale(one(media, 'mdhd'));
  const handler = one(media, 'hdlr');
  const kind = String.fromCharCode(...[8, 9, 10, 11].map((i) => handler.getUint8(i)));
  const table = boxesOf(one(boxesOf(one(media, 'minf')), 'stbl'));
  if (table.some(({ type }) => type === 'stps')) throw new RangeError('key pictures that lean on others');
  const edits = boxes.find(({ type }) => type === 'edts');
  const shift = edits ? shiftOf(one(boxesOf(edits.body), 'elst'), scale, movieScale) : 0;
  const times = timesOf(one(table, 'stts'), scale);
  const sync = table.find(({ type }) => type === 'stss')?.body;
  return {
    ...{ kind, shift, sample: times.count > 0 ? times.at(times.count) / times.count : 0 },
    keys: sync && Float64Array.from({ length: rows(sync, 4, 4) }, (_, i) => times.at(sync.getUint32(8 + 4 * i) - 1)),
    parts: partsOf(table, times),
  };
}

/** How many rows a table has. @param count where it says so */
function rows(body: DataView, count: number, size: number): number {
  const told = body.getUint32(count);
  if (told > MOST_CHUNKS || count + 4 + told * size > body.byteLength) throw new RangeError('a table is cut short');
  return told;
}

/** An empty stretch before the first sample, and where in the samples the film begins; other edits are not known here. */
function shiftOf(body: DataView, scale: number, movieScale: number): number {
  const long = body.getUint8(0) === 1;
  const size = long ? 20 : 12;
  let [shift, played] = [0, 0];
  for (let i = 0, count = rows(body, 4, size); i < count; i++) {
    const at = 8 + i * size;
    const length = long ? Number(body.getBigUint64(at)) : body.getUint32(at);
    const from = long ? Number(body.getBigInt64(at + 8)) : body.getInt32(at + 4);
    if (from === -1 && played === 0) shift += length / movieScale;
    else if (from >= 0 && played++ === 0) shift -= from / scale;
    else throw new RangeError('several edits');
  }
  return shift;
}

interface Times {
  readonly count: number;
  /** When a sample is decoded, s; asked for in any order, quick in rising order. */
  at(sample: number): number;
}

function timesOf(body: DataView, scale: number): Times {
  const runs = rows(body, 4, 8);
  const first = new Float64Array(runs + 1);
  const begins = new Float64Array(runs + 1);
  for (let i = 0; i < runs; i++) {
    const [count, each] = [body.getUint32(8 + 8 * i), body.getUint32(12 + 8 * i)];
    first[i + 1] = must(first[i], 'a run of samples') + count;
    begins[i + 1] = must(begins[i], 'a run of samples') + count * each;
  }
  let run = 0;
  return {
    count: must(first[runs], 'a run of samples'),
    at(sample) {
      if (sample < must(first[run], 'a run of samples')) run = 0;
      while (run < runs && sample >= must(first[run + 1], 'a run of samples')) run++;
      const each = run < runs ? body.getUint32(12 + 8 * run) : 0;
      return (must(begins[run], 'a run of samples') + (sample - must(first[run], 'a run of samples')) * each) / scale;
    },
  };
}

function partsOf(table: readonly Box[], times: Times): Part[] {
  const wide = table.find(({ type }) => type === 'co64')?.body;
  const offsets = wide ?? one(table, 'stco');
  const chunks = rows(offsets, 4, wide ? 8 : 4);
  const groups = one(table, 'stsc');
  const groupCount = rows(groups, 4, 12);
  const sizes = one(table, 'stsz');
  const same = sizes.getUint32(4);
  if (same === 0) rows(sizes, 8, 4);
  const parts: Part[] = [];
  let [group, sample] = [0, 0];
  for (let chunk = 1; chunk <= chunks; chunk++) {
    while (group + 1 < groupCount && groups.getUint32(8 + 12 * (group + 1)) <= chunk) group++;
    const count = groupCount > 0 ? groups.getUint32(12 + 12 * group) : 0;
    let size = same * count;
    if (same === 0) for (let i = 0; i < count; i++) size += sizes.getUint32(12 + 4 * (sample + i));
    const at = wide ? 8 + 8 * (chunk - 1) : 8 + 4 * (chunk - 1);
    parts.push({
      offset: wide ? Number(wide.getBigUint64(at)) : offsets.getUint32(at),
      size,
      time: [times.at(sample), times.at(sample + count)],
    });
    sample += count;
  }
  return parts;
}
