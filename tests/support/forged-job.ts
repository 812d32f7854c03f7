import type { Connected } from '../../src/node/queue/connect.ts';
import { seal } from '../../src/node/queue/seal.ts';

/** A job that somebody without the shop's token has put into its queue. */
export interface FakeJob {
  readonly id: string;
  readonly token: string;
}

/** Puts it into every queue that workers listen to. */
export async function addForged({ connection, prefix, queue }: Connected, { id, token }: FakeJob): Promise<void> {
  const keys = await connection.keys(`${prefix}:media-*:meta`);
  const data = { task: 'encode-picture', inputs: [], params: {} };
  for (const key of keys)
    await queue(key.slice(prefix.length + 1, -':meta'.length)).add(
      'encode-picture',
      { job: seal(data, id, token) },
      { jobId: id },
    );
}
