import { basename } from 'node:path';
import { angleFrames, anglesUsed, type PictureRun, usedOf } from '../../core/media/index.ts';
import type { Angle, Recording } from '../../core/model/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { type FrameRate, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { fileInside } from '../files/inside.ts';
import { type Examined, examine, findCopyPoints } from './examine.ts';
import type { FileOnGrid } from './file-on-grid.ts';
import { probeFile } from './probe.ts';
import { inWords } from './progress.ts';
import type { Tools } from './tools.ts';

/** A file of the angle whose sound is heard. */
export interface AngleSound {
  readonly file: Examined;
  /** Where its first frame (or sample, without a picture) lies in recording time, ticks; may be negative. */
  readonly offset: number;
  /** parts per million */
  readonly drift: number;
}

/**
 * Looks at the angles that the edit list shows, and at the one that is heard.
 *
 * @throws OutsideFailure when one is unknown, not aligned or has no picture: told before any work is done
 */
export async function prepareAngles(
  content: string,
  recording: Recording,
  { rate, shown }: { readonly rate: FrameRate; readonly shown: readonly PictureRun[] },
  tools: Tools,
  signal: AbortSignal,
): Promise<{
  readonly files: readonly FileOnGrid[];
  readonly sounds: readonly AngleSound[];
  readonly inputs: readonly { readonly file: string; readonly content: string }[];
  readonly warnings: readonly string[];
}> {
  const files: FileOnGrid[] = [];
  const sounds: AngleSound[] = [];
  const inputs: { file: string; content: string }[] = [];
  const warnings: string[] = [];
  const { sound } = recording.written;
  for (const id of new Set([...recording.shots.map(({ angle }) => angle), ...(sound === undefined ? [] : [sound])]))
    checkAligned(recording, id);
  for (const angle of anglesUsed(recording)) {
    const file = await examine(fileInside(content, angle.file), tools, signal);
    inputs.push({ file: angle.file, content: file.content });
    const { offset = 0, drift } = angle;
    if (angle.id === sound) {
      if (file.sounds.length === 0) warnings.push(`${angle.file} has no sound: that of the cameras is heard there`);
      sounds.push({ file, offset, drift });
    }
    const runs = shown.filter((run) => run.angle === angle.id);
    if (runs.length === 0) continue;
    if (!file.picture)
      throw new OutsideFailure(
        `${recording.id} cannot be rendered: the angle ${angle.id} is to be shown, and ${angle.file} has no picture`,
        'name it under sound: to have it heard',
      );
    files.push(...(await placeAngle(file, angle, runs, rate)));
  }
  for (const run of shown.filter(({ angle }) => angle !== undefined)) {
    const { angle, count } = run;
    const covered = files.reduce((sum, file) => sum + usedOf(file, [run]), 0);
    if (covered < count)
      warnings.push(
        `${angle} did not run for ${inWords(((count - covered) * rate.ticksPerFrame) / TICKS_PER_SECOND)} of what the edit list shows of it: the recording's own camera is shown there`,
      );
  }
  return { files, sounds, inputs, warnings };
}

function checkAligned(recording: Recording, id: string): void {
  const own = recording.angles.filter((angle) => angle.id === id);
  if (own.length === 0)
    throw new OutsideFailure(
      `${recording.id} cannot be rendered: it has no camera "${id}"`,
      didYouMean(
        id,
        recording.angles.map((angle) => angle.id),
      ),
    );
  const open = own.find(({ offset }) => offset === undefined);
  if (open)
    throw new OutsideFailure(
      `${recording.id} cannot be rendered: where ${open.file} of the angle ${id} begins is not known`,
      `liftside align ${recording.id} --write finds it by sound`,
    );
}

/**
 * An angle's file on the frame grid. At the rate of the recording each of its frames stands for one of the recording's,
 * so that they may be copied; another rate or uneven frames are brought to the grid when they are encoded.
 */
async function placeAngle(
  file: Examined,
  angle: Angle,
  runs: readonly PictureRun[],
  rate: FrameRate,
): Promise<FileOnGrid[]> {
  const { ticksPerFrame } = rate;
  const { offset = 0, drift, id } = angle;
  const length = (file.picture?.length ?? 0) * TICKS_PER_SECOND;
  const probed = await probeFile(file.path);
  const picture = probed.ok ? probed.value.pictures[0] : undefined;
  const own = rate.numerator / rate.denominator;
  if (picture?.even && Math.abs(picture.framesPerSecond / own - 1) < 0.0005) {
    const copyable = await findCopyPoints(file, ticksPerFrame, 0);
    const stretches = angleFrames(runs, angle, Math.round(picture.length / ticksPerFrame), rate);
    return stretches.map((stretch) => ({ file, copyable, ...stretch, lead: 0, drift: 0, angle: id }));
  }
  const first = Math.floor(offset / ticksPerFrame);
  const from = Math.max(0, Math.ceil(offset / ticksPerFrame));
  const until = Math.floor((offset + length / (1 + drift / 1e6)) / ticksPerFrame);
  const refused = { refused: `the frame rate of ${basename(file.path)} is not that of the recording` };
  return [
    {
      ...{ file, copyable: { points: refused }, first, from, count: Math.max(0, until - from) },
      ...{ lead: offset / ticksPerFrame - first, drift, angle: id },
    },
  ];
}
