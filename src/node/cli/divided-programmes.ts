import { stat } from 'node:fs/promises';
import type { Recording } from '../../core/model/index.ts';
import type { Contents } from '../../core/pack/index.ts';
import { plural } from '../../core/read/index.ts';
import { spaceAt } from '../media/disk.ts';
import type { RenderedFiles } from '../media/rendered.ts';
import { Store } from '../media/store.ts';
import { divideFilm } from '../pack/divided-films.ts';
import { ByteProgress, byteText } from './byte-progress.ts';
import { type Context, OutsideFailure } from './command.ts';

/** The finished programmes of a package, by recording. */
export type ProgrammeOf = (recording: Pick<Recording, 'id'>) => Promise<RenderedFiles | undefined>;

/**
 * Lends the finished programmes of a package, those that are too large in several files, which go afterwards.
 *
 * @throws OutsideFailure when one cannot be divided, or the disk has not the room
 */
export async function withDividedProgrammes<T>(
  wishes: {
    readonly programmes: ReadonlyMap<string, RenderedFiles>;
    readonly contents: Contents;
    /** Bytes that a file may have. */
    readonly largest: number;
  },
  context: Context,
  work: (programmeOf: ProgrammeOf) => Promise<T>,
): Promise<T> {
  const { programmes, contents, largest } = wishes;
  const sizes = new Map<string, readonly number[]>();
  for (const [id, { parts }] of programmes)
    sizes.set(id, await Promise.all(parts.map(async ({ file }) => (await stat(file)).size)));
  const tooLarge = [...sizes.values()].flat().filter((bytes) => bytes > largest);
  if (tooLarge.length === 0) return work(async ({ id }) => programmes.get(id));
  const total = tooLarge.reduce((sum, bytes) => sum + bytes, 0);
  const store = await Store.open(context.content);
  try {
    const folder = await store.temporaryFolder();
    await holdRoom(folder, total);
    const progress = new ByteProgress(context, 'dividing', total);
    const divided = new Map<string, RenderedFiles>();
    for (const recording of contents.recordings) {
      const rendered = programmes.get(recording.id);
      if (!rendered) continue;
      const { at, rendered: now } = await divideFilm(
        rendered,
        sizes.get(recording.id) ?? [],
        recording,
        contents.lessons,
        { largest, folder, signal: context.signal, wrote: (bytes) => progress.add(bytes) },
      );
      divided.set(recording.id, now);
      if (at.length > 0)
        context.say(
          `${recording.id} lies in ${plural(now.parts.length, 'file')} of at most ${byteText(largest)}, divided at ${at.join(', ')}`,
        );
    }
    return await work(async ({ id }) => divided.get(id));
  } finally {
    await store.close();
  }
}

async function holdRoom(folder: string, bytes: number): Promise<void> {
  const free = await spaceAt(folder);
  if (free >= bytes) return;
  throw new OutsideFailure(
    `dividing takes ${byteText(bytes)} on the disk of the content folder, and ${byteText(free)} are free`,
    'free some space on it, or allow larger files: --largest-file none; nothing was written',
  );
}
