import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { onPath } from '../../src/node/programs/index.ts';

/** Where the program is that keeps queues; tests that need it are skipped without. */
export const redisServer = await onPath(['redis-server'], process.env);

/** A token as a shop would have; invented. */
export const TOKEN = 'a-token-of-the-invented-shop-0123456789';

/** A Redis of a test's own, set up as the documents say. */
export interface TestRedis {
  readonly address: string;
  /** As by kill -9. */
  kill(): Promise<void>;
  /** Over the same files, at the same port. */
  start(): Promise<void>;
}

/** @param folder where it keeps its files */
export async function startRedis(folder: string): Promise<TestRedis> {
  await mkdir(folder, { recursive: true });
  const port = await freePort();
  let running: ChildProcess | undefined;
  const kept = ['--appendonly', 'yes', '--appendfsync', 'always', '--maxmemory-policy', 'noeviction', '--save', ''];
  const redis: TestRedis = {
    address: `redis://127.0.0.1:${port}`,
    async kill() {
      const ended = running && once(running, 'exit');
      running?.kill('SIGKILL');
      await ended;
      running = undefined;
    },
    async start() {
      const words = ['--port', String(port), '--bind', '127.0.0.1', '--dir', folder, ...kept];
      running = spawn(redisServer ?? 'redis-server', words, { stdio: ['ignore', 'pipe', 'ignore'] });
      let said = '';
      running.stdout?.setEncoding('utf8').on('data', (text: string) => {
        said += text;
      });
      while (!said.includes('Ready to accept connections')) {
        if (running.exitCode !== null) throw new Error(said);
        await pause(20);
      }
    },
  };
  await redis.start();
  return redis;
}

/** A process of Liftside, and what it has said. */
export interface Started {
  readonly child: ChildProcess;
  readonly ended: Promise<number | null>;
  said(): string;
  /** Resolves once it has said that. */
  says(words: string | RegExp, times?: number): Promise<void>;
}

/** Starts a command of Liftside. @param before options of Node */
export function start(
  words: readonly string[],
  env: Readonly<Record<string, string>>,
  before: readonly string[] = [],
): Started {
  const main = join(import.meta.dirname, '../../src/node/cli/liftside.mjs');
  const child = spawn(process.execPath, [...before, main, ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, ...env },
  });
  let text = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (part: string) => {
      text += part;
    });
  return {
    child,
    ended: once(child, 'close').then(([code]) => code as number | null),
    said: () => text,
    async says(wanted, times = 1) {
      const pattern = typeof wanted === 'string' ? wanted : new RegExp(wanted, 'gm');
      const count = () =>
        typeof pattern === 'string' ? text.split(pattern).length - 1 : (text.match(pattern)?.length ?? 0);
      while (count() < times) {
        if (child.exitCode !== null || child.signalCode !== null)
          throw new Error(`it ended without saying ${wanted}:\n${text}`);
        await pause(20);
      }
    },
  };
}

/** Ends a process and waits until it has. */
export async function end({ child, ended }: Started, signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> {
  if (child.exitCode === null && child.signalCode === null) child.kill(signal);
  return ended;
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  return typeof address === 'object' && address ? address.port : 0;
}
