import { jobPriority } from '../../core/media/index.ts';
import type { Recording, Shop } from '../../core/model/index.ts';
import { isoDay } from '../../core/time/index.ts';
import type { Workplace } from '../media/pool.ts';
import { withWorkplace } from '../media/workplace.ts';
import { queueSettings } from '../queue/settings.ts';
import type { Context } from './command.ts';
import { liveDisplay } from './live.ts';

/**
 * Lends everything that work on a recording needs: this machine, or the workers of a queue where one is named.
 *
 * @throws OutsideFailure when ffmpeg is missing, nothing can be written, or the queue or its store does not answer
 */
export async function withFootage<T>(
  recording: Recording,
  shop: Shop,
  context: Context,
  work: (place: Workplace) => Promise<T>,
): Promise<T> {
  const { content, cwd, env, say, now } = context;
  const around = { ...context, display: liveDisplay(context) };
  const settings = queueSettings(env);
  if (!settings) return withWorkplace(content, around, work);
  // Asked for only here: who has no queue does not wait for its libraries.
  const { connect, openMediaStore, queueCrew } = await import('../queue/index.ts');
  const store = await openMediaStore(settings, cwd, env);
  const connected = await connect(settings);
  try {
    for (const warning of await connected.warnings()) say(`note: ${warning}`);
    const priority = jobPriority(shop, recording.id, isoDay(now()));
    const crew = queueCrew({ connected, store, token: settings.token, recording: recording.id, priority, say });
    return await withWorkplace(content, { ...around, crew }, work);
  } finally {
    await connected.close();
  }
}
