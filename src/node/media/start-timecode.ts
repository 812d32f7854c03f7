import { type FileHandle, open } from 'node:fs/promises';
import { type FrameRate, nearestRate, printTimecode } from '../../core/time/index.ts';

interface Box {
  readonly type: string;
  /** Byte positions of its content in the file. */
  readonly start: number;
  readonly end: number;
}

/**
 * The timecode of the first frame, from the timecode track of an MP4 or QuickTime file.
 *
 * @returns `hh:mm:ss:ff` or `hh:mm:ss;ff`; nothing where the file carries none
 * @throws nothing for files of another kind or broken ones
 * Source: Apple, QuickTime File Format, "Timecode media": sample entry `tmcd` with flags (1 = drop-frame), time scale,
 * frame duration and frames per second; the sample is the frame count of the first frame, 32 bits, big-endian.
 */
export async function readStartTimecode(path: string): Promise<string | undefined> {
  const file = await open(path, 'r');
  try {
    const size = (await file.stat()).size;
    for await (const moov of boxes(file, 0, size)) {
      if (moov.type !== 'moov') continue;
      for await (const trak of boxes(file, moov.start, moov.end))
        if (trak.type === 'trak') {
          const found = await timecodeOf(file, trak);
          if (found) return found;
        }
      return undefined;
    }
    return undefined;
  } catch {
    return undefined;
  } finally {
    await file.close();
  }
}

/** The outermost boxes of a file, by type; whatever stands there where it is no such file. */
export async function boxTypes(path: string): Promise<string[]> {
  const file = await open(path, 'r');
  try {
    const types: string[] = [];
    for await (const { type } of boxes(file, 0, (await file.stat()).size)) {
      types.push(type);
      if (types.length > 1000) break;
    }
    return types;
  } catch {
    return [];
  } finally {
    await file.close();
  }
}

async function timecodeOf(file: FileHandle, trak: Box): Promise<string | undefined> {
  const table = await find(file, trak, ['mdia', 'minf', 'stbl']);
  const entries = table && (await find(file, table, ['stsd']));
  const offsets = table && ((await find(file, table, ['stco'])) ?? (await find(file, table, ['co64'])));
  if (!entries || !offsets) return undefined;
  const entry = await bytes(file, entries.start, 42);
  if (entry.length < 42 || entry.toString('latin1', 12, 16) !== 'tmcd') return undefined;
  const rate = rateOf(entry.readUInt32BE(28), entry.readUInt32BE(32), entry.readUInt32BE(36));
  const offset = await bytes(file, offsets.start + 8, 8);
  const wide = offsets.type === 'co64';
  const sample = await bytes(file, wide ? Number(offset.readBigUInt64BE(0)) : offset.readUInt32BE(0), 4);
  return rate && sample.length === 4 ? printTimecode(sample.readUInt32BE(0), rate) : undefined;
}

/** @param scale units per second @param duration of a frame, in such units */
function rateOf(flags: number, scale: number, duration: number): FrameRate | undefined {
  const dropFrame = (flags & 1) === 1;
  return duration > 0 ? nearestRate(scale / duration, dropFrame) : undefined;
}

async function find(file: FileHandle, within: Box, path: readonly string[]): Promise<Box | undefined> {
  const [type, ...rest] = path;
  if (type === undefined) return within;
  for await (const box of boxes(file, within.start, within.end)) if (box.type === type) return find(file, box, rest);
  return undefined;
}

/** Boxes between two positions of an ISO base media file (ISO/IEC 14496-12, 4.2): size, type, content. */
async function* boxes(file: FileHandle, start: number, end: number): AsyncGenerator<Box> {
  for (let at = start; at + 8 <= end; ) {
    const head = await bytes(file, at, 16);
    if (head.length < 8) return;
    const short = head.readUInt32BE(0);
    const header = short === 1 ? 16 : 8;
    const size = short === 0 ? end - at : short === 1 ? Number(head.readBigUInt64BE(8)) : short;
    if (size < header) return;
    yield { type: head.toString('latin1', 4, 8), start: at + header, end: Math.min(at + size, end) };
    at += size;
  }
}

async function bytes(file: FileHandle, position: number, length: number): Promise<Buffer> {
  const buffer = Buffer.alloc(length);
  const { bytesRead } = await file.read(buffer, 0, length, position);
  return buffer.subarray(0, bytesRead);
}
