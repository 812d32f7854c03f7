import type { Job } from '../../core/media/index.ts';
import { type Range, range, type Ticks, ticks } from '../../core/time/index.ts';
import { copyStretch, keyBefore } from './divide-film.ts';
import { fingerprint } from './fingerprint.ts';
import { Store } from './store.ts';

/** A stretch of a film, to be copied into a short file of its own. */
export interface OpeningWanted {
  /** Absolute path of the film. */
  readonly path: string;
  /** On the film's own clock. */
  readonly stretch: Range<'programme'>;
  /** Length of a frame, ticks. */
  readonly frame: number;
}

export interface OpeningMade {
  /** Absolute path. */
  readonly file: string;
  /** What it holds, on the film's own clock: from the picture on from which the stretch can be decoded. */
  readonly holds: Range<'programme'>;
}

/**
 * Copies the stretches out of their films, or finds them among those copied before.
 *
 * @returns one for each stretch, in their order; nothing in place of one whose film cannot be copied from
 * @throws OutsideFailure when nothing can be written beside the content
 */
export async function makeOpenings(
  content: string,
  wanted: readonly OpeningWanted[],
  signal: AbortSignal,
): Promise<(OpeningMade | undefined)[]> {
  const store = await Store.open(content);
  try {
    const contents = new Map<string, string>();
    const made: (OpeningMade | undefined)[] = [];
    for (const each of wanted) {
      signal.throwIfAborted();
      const known = contents.get(each.path) ?? (await fingerprint(each.path));
      contents.set(each.path, known);
      made.push(await makeOpening(each, known, store, signal));
    }
    return made;
  } finally {
    await store.close();
  }
}

async function makeOpening(
  { path, stretch, frame }: OpeningWanted,
  content: string,
  store: Store,
  signal: AbortSignal,
): Promise<OpeningMade | undefined> {
  try {
    const start: Ticks<'programme'> = await keyBefore(path, stretch.start, frame);
    const holds = range(start, ticks<'programme'>(Math.max(start, stretch.end)));
    const job: Job = {
      task: 'opening',
      inputs: [{ path, content }],
      params: { start: holds.start, end: holds.end, frame },
    };
    const file = store.path(job, FORM, 'mp4');
    if (!(await store.has(file))) {
      const unfinished = store.temporary('mp4');
      await copyStretch(path, holds, frame, unfinished, { signal, wrote: () => {}, small: true });
      await store.keep(unfinished, file);
    }
    return { file, holds };
  } catch (error) {
    signal.throwIfAborted();
    // In a container or coding that cannot be put into an MP4 file: it begins as it would without.
    if (error instanceof Error) return undefined;
    throw error;
  }
}

/** Raised when the same stretch is written in other bytes. */
const FORM = '1';
