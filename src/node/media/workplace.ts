import { OutsideFailure } from '../failure.ts';
import type { Crew, Workplace } from './pool.ts';
import { type Display, Progress } from './progress.ts';
import { Store } from './store.ts';
import { findTools } from './tools.ts';

/**
 * Opens everything that measuring and rendering need, lends it, and clears up afterwards, whatever happened.
 *
 * @throws OutsideFailure when ffmpeg is missing or nothing can be written
 */
export async function withWorkplace<T>(
  content: string,
  around: {
    readonly env: Readonly<Record<string, string | undefined>>;
    readonly signal: AbortSignal;
    readonly display: Display;
    /** Who does the jobs; this process when left out. */
    readonly crew?: Crew;
  },
  work: (place: Workplace) => Promise<T>,
): Promise<T> {
  const tools = await findTools(around.env);
  if (!tools.ok) throw new OutsideFailure(tools.problem, tools.help);
  const store = await Store.open(content);
  try {
    return await work({
      ...{ tools: tools.value, store, signal: around.signal, progress: new Progress(around.display) },
      ...(around.crew && { crew: around.crew }),
    });
  } finally {
    await store.close();
  }
}
