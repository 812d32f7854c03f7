import type { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { OutsideFailure } from '../failure.ts';
import { toolVersion } from '../media/pool.ts';
import type { Tools } from '../media/tools.ts';
import { ASSEMBLE, MEDIA_KINDS } from './job-kinds.ts';
import { nameOf } from './seal.ts';
import { type QueueSettings, shownAddress } from './settings.ts';

type Bull = typeof import('bullmq');

/** A connection to the Redis of the settings, and the library that keeps jobs in it. */
export interface Connected {
  readonly bull: Bull;
  /** Shared by all that only ask; workers and listeners make their own from it. */
  readonly connection: Redis;
  /** What keeps this shop's jobs apart from others in the same Redis. */
  readonly prefix: string;
  queue(name: string): Queue;
  /** What about this Redis may lose jobs. */
  warnings(): Promise<string[]>;
  close(): Promise<void>;
}

/** How long a Redis is waited for when work begins, ms. Later, for as long as it takes. */
const FIRST = 5000;

/**
 * Connects to the Redis that holds the jobs.
 *
 * @throws OutsideFailure when its libraries are not installed or nobody answers
 */
export async function connect({ address, token }: QueueSettings): Promise<Connected> {
  const [bull, { Redis }] = await Promise.all([import('bullmq'), import('ioredis')]).catch(() => {
    throw new OutsideFailure(
      'the libraries that speak with a queue are not installed',
      'npm install --include=optional brings them; without LIFTSIDE_QUEUE this machine does the work alone',
    );
  });
  const connection = new Redis(address, { maxRetriesPerRequest: null, lazyConnect: true, connectTimeout: FIRST });
  let said = '';
  connection.on('error', (error: Error) => {
    said = error.message;
  });
  const slow = AbortSignal.timeout(FIRST);
  const late = new Promise<never>((_, fail) => slow.addEventListener('abort', () => fail(slow.reason), { once: true }));
  try {
    await Promise.race([connection.connect().then(() => connection.ping()), late]);
  } catch (error) {
    connection.disconnect();
    const why = said || (error instanceof Error ? error.message : String(error));
    throw new OutsideFailure(
      `no Redis answers at ${shownAddress(address)}: ${why}`,
      'start redis-server there, or correct LIFTSIDE_QUEUE; without it this machine does the work alone',
    );
  }
  const prefix = `liftside-${nameOf(token)}`;
  const queues = new Map<string, Queue>();
  return {
    ...{ bull, connection, prefix },
    queue(name) {
      const queue = queues.get(name) ?? new bull.Queue(name, { connection, prefix });
      queues.set(name, queue);
      return queue;
    },
    warnings: () => keepingFaults(connection),
    async close() {
      await Promise.all([...queues.values()].map((queue) => queue.close().catch(() => undefined)));
      connection.disconnect();
    },
  };
}

/** As a Redis has to be set so that no job is lost when it is killed. */
export const KEEPING = { appendonly: 'yes', appendfsync: 'always', 'maxmemory-policy': 'noeviction' } as const;

async function keepingFaults(connection: Redis): Promise<string[]> {
  const faults: string[] = [];
  for (const [key, wanted] of Object.entries(KEEPING)) {
    // Where it may not be asked nothing can be said.
    const told = await connection.config('GET', key).catch(() => undefined);
    const is = Array.isArray(told) ? told[1] : undefined;
    if (typeof is === 'string' && is !== wanted)
      faults.push(`its ${key} is ${is}, so that jobs may be lost when it stops: set ${key} ${wanted}`);
  }
  return faults;
}

/** What a worker has to have for a job, so that every one of them makes the same of it. */
export type Skill =
  | { readonly kind: 'media' }
  | { readonly kind: 'voice'; readonly listener: string }
  | { readonly kind: 'speech'; readonly model: string };

/**
 * The queue for jobs that need a skill. Its name bears everything that decides the bytes of a result besides the job:
 * workers with another ffmpeg, or of another version of Liftside, do not see it.
 */
export function queueName(skill: Skill, tools: Pick<Tools, 'version'>): string {
  const versions = [...MEDIA_KINDS].map(([name, { version }]) => `${name} ${toolVersion(version, tools)}`);
  const about = skill.kind === 'voice' ? skill.listener : skill.kind === 'speech' ? skill.model : '';
  return `${skill.kind}-${nameOf([ASSEMBLE, ...versions, about].join('\n'))}`;
}
