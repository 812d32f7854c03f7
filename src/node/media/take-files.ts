import { stat } from 'node:fs/promises';
import { CAPTIONS, FOOTAGE, planTake, type TakeFile, type TakePlan } from '../../core/media/index.ts';
import { insideFolder } from '../files/index.ts';
import { probeFile } from './probe.ts';

/** What a set of files comes to as a recording. */
export interface TakeFound {
  readonly plan?: TakePlan;
  readonly captions?: string;
  /** Files that are of no use for it, with the reason. */
  readonly unusable: readonly { readonly file: string; readonly problem: string; readonly help: string }[];
}

/**
 * Looks at files of the content folder and works out what recording they make.
 *
 * @param names relative to the content folder
 */
export async function findTake(content: string, names: readonly string[]): Promise<TakeFound> {
  const files: TakeFile[] = [];
  const unusable: { file: string; problem: string; help: string }[] = [];
  for (const file of names.filter((name) => FOOTAGE.test(name))) {
    const inside = insideFolder(content, file);
    if (!inside.ok) {
      unusable.push({ file, problem: inside.problem, help: 'put the file itself into the content folder' });
      continue;
    }
    const read = await probeFile(inside.path);
    if (!read.ok) {
      unusable.push({ file, problem: read.problem, help: read.help });
      continue;
    }
    const { duration, width, height, framesPerSecond, startTimecode, pictures } = read.value;
    const [picture] = pictures;
    files.push({
      file,
      writtenAt: (await stat(inside.path)).mtimeMs,
      duration,
      ...(picture && {
        picture: {
          ...{ width: width ?? 0, height: height ?? 0, framesPerSecond: framesPerSecond ?? 0 },
          ...{ codec: picture.codec, even: picture.even },
        },
      }),
      ...(startTimecode !== undefined && { startTimecode }),
    });
  }
  const plan = planTake(files);
  const [captions, ...more] = names.filter((name) => CAPTIONS.test(name));
  for (const file of more)
    unusable.push({
      file,
      problem: `a recording has one caption file, and ${captions} is taken`,
      help: 'leave that one out to take this one',
    });
  return { ...(plan && { plan }), ...(captions !== undefined && { captions }), unusable };
}
