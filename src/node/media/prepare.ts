import { basename } from 'node:path';
import {
  anglesUsed,
  type FootageFile,
  type KeptFrames,
  keptFrames,
  type Look,
  type PictureRun,
  type PictureSource,
  pictureRuns,
  planLook,
  usedOf,
} from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { FRAME_RATES, type FrameRate, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { fileInside } from '../files/inside.ts';
import { type Examined, examine, findCopyPoints } from './examine.ts';
import type { FileOnGrid } from './file-on-grid.ts';
import { needFiles } from './need-files.ts';
import { type AngleSound, prepareAngles } from './prepare-angles.ts';
import { probeFile } from './probe.ts';
import { inWords } from './progress.ts';
import type { Tools } from './tools.ts';

/** A recording ready to be rendered. */
export interface Prepared {
  readonly recording: Recording;
  readonly rate: FrameRate;
  /** Runs that stay; `shown` has them split where the camera changes. */
  readonly kept: readonly KeptFrames[];
  readonly shown: readonly PictureRun[];
  /** The recording's own files in their order, then those of the angles shown. */
  readonly files: readonly FileOnGrid[];
  /** Files whose sound is heard instead of the recording's own, where they have any. */
  readonly sounds: readonly AngleSound[];
  /** Every file the programme is made from, as written, with the fingerprint of its content. */
  readonly inputs: readonly { readonly file: string; readonly content: string }[];
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
  const used = [...recording.files, ...anglesUsed(recording)];
  await needFiles(
    content,
    recording,
    used.map(({ file }) => file),
  );
  for (const { file, facts } of used)
    if (facts.state === 'unreadable')
      throw new OutsideFailure(
        `${recording.id} cannot be used: ${file} cannot be read: ${facts.reason}`,
        'copy the file from the card again, or leave it out of the recording',
      );
  const warnings: string[] = [];
  const rate = recording.rate ?? FRAME_RATES['30'];
  if (!recording.rate) warnings.push('the frame rate is not one in use, as phones write it: rendered at 30');
  const files: FileOnGrid[] = [];
  for (const { file, span } of recording.files) {
    const path = fileInside(content, file);
    const examined = await examine(path, tools, signal);
    const first = Math.round(span.start / rate.ticksPerFrame);
    const lead = span.start - first * rate.ticksPerFrame;
    const end = Math.round(span.end / rate.ticksPerFrame);
    warnings.push(...(await oddities(path, file, examined, recording, rate)));
    if (examined.sounds.length === 0) warnings.push(`${file} has no sound: silent there`);
    if (examined.sounds.length > 1)
      warnings.push(`${file} has ${examined.sounds.length} sound tracks: the first is used`);
    if (!examined.picture) warnings.push(`${file} has no picture: black there`);
    files.push({
      file: examined,
      copyable: await findCopyPoints(examined, rate.ticksPerFrame, lead),
      first,
      from: first,
      count: end - first,
      lead: lead / rate.ticksPerFrame,
      drift: 0,
    });
  }
  const kept = keptFrames(recording.edit, rate);
  const shown = pictureRuns(kept, recording.shots, rate);
  const angles = await prepareAngles(content, recording, { rate, shown }, tools, signal);
  warnings.push(...angles.warnings);
  const own = recording.files.map(({ file }, i) => ({ file, content: files[i]?.file.content ?? '' }));
  return {
    ...{ recording, rate, kept, shown, warnings },
    files: [...files, ...angles.files],
    sounds: angles.sounds,
    inputs: [...own, ...angles.inputs],
  };
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
  const unseen = pictures[0]?.unseen;
  if (unseen !== undefined)
    told.push(
      `${file} begins in the middle of a group of pictures: for the first ${(unseen / TICKS_PER_SECOND).toFixed(1)} s the picture after it stands still`,
    );
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
  { files, shown, rate }: Prepared,
  refused: ReadonlyMap<string, string>,
): { readonly look: Look; readonly sources: readonly PictureSource[] } {
  const unlike = files.filter(({ file }, i) => files.findIndex((other) => other.file.path === file.path) === i);
  const footage = unlike.map(({ file, copyable }): FootageFile => {
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
      used: picture
        ? files.reduce((sum, each) => sum + (each.file.path === file.path ? usedOf(each, shown) : 0), 0)
        : 0,
    };
  });
  const planned = planLook(footage, rate.numerator / rate.denominator);
  const look: Look = {
    ...planned,
    files: files.flatMap(({ file }) => planned.files[unlike.findIndex((one) => one.file.path === file.path)] ?? []),
  };
  const sources = files.map(({ file, first, from, count, angle }, i): PictureSource => {
    const copy = look.files[i]?.copy ?? [];
    const end = from + count;
    // The end of a file may lie past the recording's own last frame; in an angle only whole groups within count.
    const points = (frames: readonly number[]) =>
      angle === undefined
        ? frames.map((point) => Math.min(first + point, end))
        : frames.map((point) => first + point).filter((point) => from <= point && point <= end);
    return {
      first: from,
      frames: file.picture ? count : 0,
      copy: 'refused' in copy ? copy : points(copy),
      ...(angle !== undefined && { angle }),
    };
  });
  return { look, sources };
}
