import { stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import {
  type FootageFile,
  type KeptFrames,
  keptFrames,
  type Look,
  type PictureSource,
  planLook,
  SAMPLE_RATE,
  type SoundSource,
} from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { FRAME_RATES, type FrameRate, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { type Copyable, type Examined, examine, findCopyPoints } from './examine.ts';
import { probeFile } from './probe.ts';
import { inWords } from './progress.ts';
import type { Tools } from './tools.ts';

/** A camera file with its place on the recording's frame grid. */
export interface Placed {
  readonly file: Examined;
  readonly copyable: Copyable;
  /** First frame of the recording that it shows, and how many. */
  readonly first: number;
  readonly frames: number;
  /** Frames from the grid to the first picture, less than one. */
  readonly lead: number;
}

/** A recording ready to be rendered. */
export interface Prepared {
  readonly recording: Recording;
  readonly rate: FrameRate;
  readonly kept: readonly KeptFrames[];
  readonly files: readonly Placed[];
  /** What whoever renders should know. */
  readonly warnings: readonly string[];
}

/**
 * Looks at the camera files of a recording.
 *
 * @param content absolute path of the content folder
 * @throws OutsideFailure when one is missing or cannot be read: told before any work is done
 */
export async function prepare(
  content: string,
  recording: Recording,
  tools: Tools,
  signal: AbortSignal,
): Promise<Prepared> {
  const missing: string[] = [];
  for (const { file } of recording.files)
    if (!(await stat(join(content, file)).catch(() => undefined))?.isFile()) missing.push(file);
  if (missing.length > 0)
    throw new OutsideFailure(
      `${recording.id} cannot be rendered: ${missing.join(', ')} ${missing.length > 1 ? 'are' : 'is'} not there`,
      `put the file back, or correct its path in ${recording.origin.place.file}`,
    );
  for (const { file, facts } of recording.files)
    if (facts.state === 'unreadable')
      throw new OutsideFailure(
        `${recording.id} cannot be rendered: ${file} cannot be read: ${facts.reason}`,
        'copy the file from the card again, or leave it out of the recording',
      );
  const warnings: string[] = [];
  const rate = recording.rate ?? FRAME_RATES['30'];
  if (!recording.rate) warnings.push('the frame rate is not one in use, as phones write it: rendered at 30');
  const files: Placed[] = [];
  for (const { file, span } of recording.files) {
    const examined = await examine(join(content, file), tools, signal);
    const first = Math.round(span.start / rate.ticksPerFrame);
    const lead = span.start - first * rate.ticksPerFrame;
    const end = Math.round(span.end / rate.ticksPerFrame);
    warnings.push(...(await oddities(join(content, file), file, examined, recording, rate)));
    if (examined.sounds.length === 0) warnings.push(`${file} has no sound: silent there`);
    if (examined.sounds.length > 1)
      warnings.push(`${file} has ${examined.sounds.length} sound tracks: the first is used`);
    if (!examined.picture) warnings.push(`${file} has no picture: black there`);
    files.push({
      file: examined,
      copyable: await findCopyPoints(examined, rate.ticksPerFrame, lead),
      first,
      frames: end - first,
      lead: lead / rate.ticksPerFrame,
    });
  }
  return { recording, rate, kept: keptFrames(recording.edit, rate), files, warnings };
}

/** What is unusual about a file beside the others. */
async function oddities(
  path: string,
  file: string,
  examined: Examined,
  recording: Recording,
  rate: FrameRate,
): Promise<string[]> {
  const told: string[] = [];
  const probed = await probeFile(path);
  if (!probed.ok) return [`${file}: ${probed.problem}`];
  const { missing, framesPerSecond = 0, width, height, pictures } = probed.value;
  if (missing !== undefined)
    told.push(`${file} breaks off: ${inWords(missing / TICKS_PER_SECOND)} that it should hold are missing`);
  const [first] = recording.files;
  const facts = first?.facts.state === 'media' ? first.facts.media : undefined;
  const differs = facts && examined.picture && (facts.width !== width || facts.height !== height);
  const own = rate.numerator / rate.denominator;
  const otherRate = framesPerSecond > 0 && Math.abs(framesPerSecond / own - 1) > 0.0005;
  if (differs || (otherRate && pictures[0]?.even))
    told.push(
      `${file} has ${width} × ${height} pixels at ${Number(framesPerSecond.toFixed(3))} frames a second, the recording ${facts?.width} × ${facts?.height} at ${rate.name}: fitted`,
    );
  if (pictures[0]?.even === false) told.push(`${file} has frames that do not follow each other evenly: made even`);
  return told;
}

/** The form of the programme's picture, and its files as the picture plan wants them. */
export function lookOf(
  { files, kept, rate }: Prepared,
  refused: ReadonlyMap<string, string>,
): { readonly look: Look; readonly sources: readonly PictureSource[] } {
  const footage = files.map(({ file, copyable, first, frames }): FootageFile => {
    const why = refused.get(file.path);
    const { picture } = file;
    return {
      name: basename(file.path),
      width: picture?.width ?? 0,
      height: picture?.height ?? 0,
      rotation: picture?.rotation ?? 0,
      profile: picture?.profile ?? '',
      level: picture?.level ?? 0,
      bFrames: picture?.bFrames ?? 0,
      interlaced: picture?.interlaced ?? false,
      points: why === undefined ? copyable.points : { refused: why },
      ...(why === undefined && copyable.configuration && { configuration: copyable.configuration }),
      used: picture ? overlap(kept, first, frames) : 0,
    };
  });
  const look = planLook(footage, rate.numerator / rate.denominator);
  const sources = files.map(({ file, first, frames }, i): PictureSource => {
    const copy = look.files[i]?.copy ?? [];
    return {
      first,
      frames: file.picture ? frames : 0,
      copy: 'refused' in copy ? copy : copy.map((point) => Math.min(first + point, first + frames)),
    };
  });
  return { look, sources };
}

function overlap(kept: readonly KeptFrames[], first: number, frames: number): number {
  return kept.reduce(
    (sum, run) => sum + Math.max(0, Math.min(run.first + run.count, first + frames) - Math.max(run.first, first)),
    0,
  );
}

/** The sound of the camera files on the recording's clock, and which file each comes from. */
export function soundSources({ recording, files }: Prepared): {
  readonly sources: readonly SoundSource[];
  readonly files: readonly { readonly file: Examined; readonly stream: number; readonly start: number }[];
  readonly channels: number;
} {
  const sample = (ticks: number) => Math.round((ticks * SAMPLE_RATE) / TICKS_PER_SECOND);
  const found = files.flatMap(({ file }, i) => {
    const span = recording.files[i]?.span;
    const [sound] = file.sounds;
    if (!span || !sound) return [];
    const late = file.picture ? sound.start - file.picture.start : 0;
    return [
      {
        source: {
          first: sample(span.start) + Math.round(late * SAMPLE_RATE),
          samples: Math.round(sound.length * SAMPLE_RATE),
          from: sample(span.start),
          until: sample(span.end),
        },
        file: { file, stream: sound.stream, start: sound.start },
        channels: sound.channels,
      },
    ];
  });
  return {
    sources: found.map(({ source }) => source),
    files: found.map(({ file }) => file),
    channels: Math.min(2, Math.max(1, ...found.map(({ channels }) => channels))),
  };
}
