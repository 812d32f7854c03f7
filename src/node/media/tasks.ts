import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import {
  blankPictureArgs,
  encodePictureArgs,
  levelFilters,
  lookAtFramesArgs,
  movementInCorners,
  type PictureCoding,
  type PictureJob,
  type SoundInput,
  type SoundLevel,
  type SoundPiece,
  soundArgs,
} from '../../core/media/index.ts';
import { OutsideFailure } from '../failure.ts';
import { packetsOf } from './adts.ts';
import { assemblePiece, reorderDepth } from './assemble.ts';
import { runFfmpeg } from './ffmpeg.ts';
import type { Task } from './pool.ts';
import type { PieceForm, Strip } from './strips.ts';

export interface PictureParams {
  readonly picture: PictureJob;
}

/** Encodes exactly the wanted frames of a file; a second input is a drawing to burn in. */
export const encodePicture: Task<PictureParams> = {
  name: 'encode-picture',
  version: 2,
  extension: 'mp4',
  async run({ picture }, inputs, output, { tools, signal, onSeconds }) {
    await runFfmpeg(tools, encodePictureArgs(the(inputs), picture, output, inputs[1]), { signal, onSeconds });
  },
};

/** How much moves in the corners of the wanted frames, as JSON. */
export const lookAtCorners: Task<PictureParams> = {
  name: 'look-at-corners',
  version: 1,
  extension: 'json',
  async run({ picture }, inputs, output, { tools, signal, onSeconds, store }) {
    const cells = store.temporary('grey');
    try {
      await runFfmpeg(tools, lookAtFramesArgs(the(inputs), picture, cells), { signal, onSeconds });
      await writeFile(output, JSON.stringify(movementInCorners(await readFile(cells))));
    } finally {
      await rm(cells, { force: true });
    }
  },
};

export interface BlankParams {
  readonly count: number;
  readonly rate: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly coding: PictureCoding;
  readonly burnt: PictureJob['burnt'];
}

/** Encodes black frames, for a stretch of the recording that no file holds; an input is a drawing to burn in. */
export const blankPicture: Task<BlankParams> = {
  name: 'blank-picture',
  version: 1,
  extension: 'mp4',
  async run({ count, rate, size, coding, burnt }, [drawing], output, { tools, signal, onSeconds }) {
    const over = burnt === null || drawing === undefined ? null : { drawing, turned: burnt };
    await runFfmpeg(tools, blankPictureArgs(count, rate, size, coding, output, over), { signal, onSeconds });
  },
};

export interface PieceParams {
  readonly strips: readonly Strip[];
  readonly form: PieceForm;
}

/** Puts coded pictures into one piece of the programme. */
export const joinPictures: Task<PieceParams> = {
  name: 'join-pictures',
  version: 1,
  extension: 'mp4',
  run: ({ strips, form }, inputs, output, bench) => assemblePiece(strips, inputs, output, form, bench),
};

/** How many pictures a decoder has to hold back to show those of a piece in order, as JSON. */
export const measureDepth: Task<{ readonly fps: number }> = {
  name: 'measure-depth',
  version: 1,
  extension: 'json',
  async run({ fps }, inputs, output) {
    await writeFile(output, JSON.stringify(await reorderDepth(the(inputs), fps)));
  },
};

export interface MeasureParams {
  readonly pieces: readonly SoundPiece[];
  readonly inputs: readonly Omit<SoundInput, 'path'>[];
  readonly channels: number;
  /** Measured as it will be with this level; as it is when left out. */
  readonly level?: SoundLevel;
}

export const measured = z.object({ blocks: z.array(z.number()), truePeak: z.number().optional() });

/** Measures the loudness of a stretch of sound by ITU-R BS.1770: blocks every 100 ms, and the true peak. */
export const measureSound: Task<MeasureParams> = {
  name: 'measure-sound',
  version: 3,
  extension: 'json',
  async run(params, inputs, output, { tools, signal, store, onSeconds }) {
    const { pieces, inputs: described, channels, level } = params;
    const folder = await store.temporaryFolder();
    const args = soundArgs(pieces, withPaths(described, inputs), channels, {
      filters: [
        ...(level ? levelFilters(level) : []),
        `ebur128=${level ? '' : 'peak=true:'}metadata=1:framelog=verbose`,
        'ametadata=mode=print:file=loudness.txt',
      ],
      output: ['-f', 'null', '-'],
    });
    await runFfmpeg(tools, args, { signal, onSeconds, cwd: folder });
    const text = await readFile(join(folder, 'loudness.txt'), 'utf8').catch(() => '');
    await writeFile(output, JSON.stringify(readMeasured(text)));
  },
};

/** Reads what ffmpeg's `ebur128` filter printed with each frame. The first three blocks are not whole yet. */
export function readMeasured(text: string): z.infer<typeof measured> {
  const blocks = [...text.matchAll(/lavfi\.r128\.M=(-?[\d.]+|-?inf|nan)/g)].map(([, value]) => Number(value));
  const peaks = [...text.matchAll(/lavfi\.r128\.true_peak=(-?[\d.]+)/g)].map(([, value]) => Number(value));
  const highest = peaks.reduce((most, peak) => Math.max(most, peak), 0);
  return {
    blocks: blocks.slice(3).map((block) => (Number.isFinite(block) ? block : -120)),
    ...(highest > 0 && { truePeak: 20 * Math.log10(highest) }),
  };
}

export interface SoundParams extends Omit<MeasureParams, 'level'> {
  /** AAC packets to throw away, and to keep. */
  readonly skip: number;
  readonly count: number;
  readonly level: SoundLevel;
  /** bits per second */
  readonly bitRate: number;
}

/** Encodes a run of sound to whole AAC frames (ADTS) that fit to the runs before and after. */
export const encodeSound: Task<SoundParams> = {
  name: 'encode-sound',
  version: 3,
  extension: 'aac',
  async run(params, inputs, output, { tools, signal, store, onSeconds }) {
    const { pieces, inputs: described, channels, skip, count, level, bitRate } = params;
    const whole = store.temporary('aac');
    const args = soundArgs(pieces, withPaths(described, inputs), channels, {
      filters: levelFilters(level),
      output: ['-c:a', 'aac', '-aac_coder', 'fast', '-b:a', String(bitRate), '-threads', '1', '-f', 'adts', whole],
    });
    await runFfmpeg(tools, args, { signal, onSeconds });
    const packets = packetsOf(await readFile(whole)).slice(skip, skip + count);
    if (packets.length < count)
      throw new OutsideFailure(
        `ffmpeg ${tools.version} made ${packets.length} of ${count} sound frames`,
        'this is a fault of Liftside or ffmpeg: the sound plan and the encoder disagree',
      );
    await writeFile(output, Buffer.concat(packets));
  },
};

function withPaths(described: readonly Omit<SoundInput, 'path'>[], paths: readonly string[]): SoundInput[] {
  return described.map((input, i) => ({ ...input, path: the(paths, i) }));
}

function the(paths: readonly string[], index = 0): string {
  const path = paths[index];
  if (path === undefined) throw new RangeError(`a job lacks input ${index}`);
  return path;
}
