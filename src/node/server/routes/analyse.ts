import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { z } from 'zod';
import { idSchema } from '../../../core/model/index.ts';
import type { Room } from '../room.ts';
import { refusal, route } from '../route.ts';

const wanted = z.strictObject({ recording: idSchema });
const running = new Set<string>();

/** Looks through the footage of a recording, in a process of its own; the page hears how far it is. */
export default route({
  method: 'POST',
  path: 'api/analyse/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    if (!read.success) return refusal(400, 'which recording is not said', 'load the page again');
    const { recording } = read.data;
    if (!running.has(recording)) start(recording, room);
    return { json: { running: true } };
  },
});

function start(recording: string, room: Room): void {
  running.add(recording);
  const main = join(room.home, 'src/node/cli/liftside.mjs');
  const work = spawn(process.execPath, [main, 'analyse', recording, '--content', room.content], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let last = '';
  const tell = (done: boolean, words: string) => room.hub.tell({ kind: 'analysis', recording, done, words });
  work.stderr.on('data', (chunk: Buffer) => {
    last = chunk.toString('utf8').trim().split('\n').at(-1) ?? last;
    tell(false, last);
  });
  work.on('error', (error) => tell(true, error.message));
  work.on('close', (code) => {
    running.delete(recording);
    tell(true, code === 0 ? '' : last);
  });
}
