import { plural } from '../../core/read/index.ts';
import { inWords } from '../media/progress.ts';
import type { Board, Listed } from '../queue/index.ts';
import { command, EXIT, type ExitCode } from './command.ts';

export default command({
  name: 'jobs',
  summary: 'the queue that LIFTSIDE_QUEUE names: list its jobs, retry failed ones, drop one, or make a token for it',
  args: ['<list|retry|drop|token>', '[id]'],
  options: [{ name: 'json', help: 'list: one JSON document' }],

  async run([action = '', id], flags, { env, say, out }) {
    const { Board, connect, neededSettings, newToken } = await import('../queue/index.ts');
    if (action === 'token') {
      out(newToken());
      return EXIT.fine;
    }
    if (!['list', 'retry', 'drop'].includes(action) || (action === 'drop' && id === undefined)) {
      say('jobs list, jobs retry [id], jobs drop <id> or jobs token');
      return EXIT.callIsWrong;
    }
    const connected = await connect(neededSettings(env));
    try {
      const board = new Board(connected);
      if (action === 'list') return await list(board, flags.has('json'), out);
      if (action === 'drop') return await drop(board, id ?? '', say);
      const tried = await board.retry(id);
      say(tried === 0 ? 'no job has failed' : `${plural(tried, 'job')} will be tried again`);
      return tried === 0 && id !== undefined ? EXIT.callIsWrong : EXIT.fine;
    } finally {
      await connected.close();
    }
  },
});

async function list(board: Board, json: boolean, out: (text: string) => void): Promise<ExitCode> {
  const { jobs, workers } = await board.list();
  if (json) {
    out(JSON.stringify({ workers, jobs }, null, 2));
    return EXIT.fine;
  }
  const there = workers === 0 ? 'no worker is there' : `${plural(workers, 'worker')} there`;
  const open = jobs.filter(({ state }) => state !== 'done');
  const done = jobs.length - open.length;
  out([...open.map(line), `${there}; ${plural(open.length, 'job')} open, ${done} done in the last day`].join('\n'));
  return EXIT.fine;
}

function line({ id, state, task, recording, seconds, why }: Listed): string {
  return `${state.padEnd(19)} ${task.padEnd(16)} ${recording}, ${inWords(seconds)}  ${id}${why ? `\n  ${why}` : ''}`;
}

async function drop(board: Board, id: string, say: (text: string) => void): Promise<ExitCode> {
  const there = await board.drop(id);
  say(there ? `${id} is dropped` : `no job ${id}; liftside jobs list names them`);
  return there ? EXIT.fine : EXIT.callIsWrong;
}
