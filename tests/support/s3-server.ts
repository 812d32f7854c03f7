import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** An object store of a test's own: s3rver, which keeps a folder of files. It looks at times and keys, not at signatures. */
export interface TestS3 {
  /** As a person would set them, for the bucket `shop`. */
  readonly env: Readonly<Record<string, string>>;
  /** What it has logged: answers as path and status. */
  said(): string;
  /** Where it keeps the objects of the bucket. */
  readonly folder: string;
  /** As by kill -9. */
  kill(): Promise<void>;
  /** Over the same objects, at the same port. */
  start(): Promise<void>;
}

const PROGRAM = join(dirname(createRequire(import.meta.url).resolve('s3rver/package.json')), 'bin/s3rver.js');

/** @param folder where it keeps what it is given */
export async function startS3(folder: string): Promise<TestS3> {
  await mkdir(folder, { recursive: true });
  let running: ChildProcess | undefined;
  let [port, said] = ['0', ''];
  const server: TestS3 = {
    folder: join(folder, 'shop'),
    said: () => said,
    env: {
      LIFTSIDE_STORE: 's3://shop/region/liftside',
      AWS_REGION: 'us-east-1',
      // The only keys that it knows.
      ...{ AWS_ACCESS_KEY_ID: 'S3RVER', AWS_SECRET_ACCESS_KEY: 'S3RVER' },
      get AWS_ENDPOINT_URL_S3() {
        return `http://127.0.0.1:${port}`;
      },
    },
    async kill() {
      const ended = running && once(running, 'exit');
      running?.kill('SIGKILL');
      await ended;
      running = undefined;
    },
    async start() {
      const words = ['-d', folder, '-a', '127.0.0.1', '-p', port, '--no-vhost-buckets', '--configure-bucket', 'shop'];
      const child = spawn(process.execPath, [PROGRAM, ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
      running = child;
      let heard = '';
      for (const stream of [child.stdout, child.stderr])
        stream.setEncoding('utf8').on('data', (text: string) => {
          heard += text;
          said += text;
        });
      for (;;) {
        const listening = /listening on 127\.0\.0\.1:(\d+)/.exec(heard)?.[1];
        if (listening !== undefined) {
          port = listening;
          return;
        }
        if (child.exitCode !== null) throw new Error(heard);
        await pause(20);
      }
    },
  };
  await server.start();
  return server;
}
