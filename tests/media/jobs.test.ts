import { mkdirSync } from 'node:fs';
import { copyFile, mkdir, readdir, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findListener } from '../../src/node/media/listener.ts';
import { Board, connect, type Listed } from '../../src/node/queue/index.ts';
import { contents } from '../faults/support/run.ts';
import { end, redisServer, type Started, start, startRedis, type TestRedis, TOKEN } from '../support/queue.ts';
import { startS3 } from '../support/s3-server.ts';
import { writeToneNetwork } from '../support/tone-network.ts';
import { smallFootage, workspace } from './make.ts';
import { shopWith } from './shop.ts';
import { shopThatSings } from './sung.ts';

// What people do with jobs, and what workers do besides rendering. Reference: the same command without a queue.
const TAKE =
  'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:05.4"}\n  - {in: "0:00:06.1", out: "0:00:10.9"}\n';

let folder: Awaited<ReturnType<typeof workspace>>;
let redis: TestRedis;
let env: Record<string, string>;
const workers: Started[] = [];

beforeAll(async () => {
  folder = await workspace();
  if (redisServer === undefined) return;
  redis = await startRedis(folder.path('redis'));
  await mkdir(folder.path('store'));
  env = { LIFTSIDE_QUEUE: redis.address, LIFTSIDE_TOKEN: TOKEN, LIFTSIDE_STORE: folder.path('store') };
  await smallFootage(folder.path('a.mp4'), 12);
});
afterAll(async () => {
  await Promise.all(workers.map((worker) => end(worker)));
  await redis?.kill();
  await folder.remove();
});

async function shop(name: string): Promise<string> {
  const content = await shopWith(folder.path(name), TAKE);
  await copyFile(folder.path('a.mp4'), join(content, 'media/a.mp4'));
  return content;
}

/** Ends all workers: what comes then waits for new ones. */
async function noWorkers(): Promise<void> {
  await Promise.all(workers.splice(0).map((each) => end(each)));
}

async function listed(): Promise<readonly Listed[]> {
  const connected = await connect({ address: redis.address, token: env.LIFTSIDE_TOKEN ?? '', store: '' });
  try {
    return (await new Board(connected).list()).jobs;
  } finally {
    await connected.close();
  }
}

async function worker(more: Record<string, string> = {}): Promise<Started> {
  const started = start(['worker', '--side-by-side', '1'], { ...env, ...more });
  workers.push(started);
  await started.says('ready:');
  return started;
}

/** Another token and store: jobs of one test are none of the next. */
function fresh(name: string): Record<string, string> {
  mkdirSync(folder.path(`store-${name}`));
  env = { ...env, LIFTSIDE_TOKEN: `${TOKEN}-${name}`, LIFTSIDE_STORE: folder.path(`store-${name}`) };
  return env;
}

const rendered = (content: string) => contents(join(content, '.liftside/rendered'));
const done = (started: readonly Started[]) => started.flatMap((each) => each.said().match(/^done .*$/gm) ?? []);

test.skipIf(redisServer === undefined)('a waiting job that is dropped ends the command that waits for it', async () => {
  await noWorkers();
  const asking = start(['render', 'take', '--loudness', 'keep', '--content', await shop('dropped')], fresh('dropped'));
  await asking.says('no worker is there');
  const [waits] = await listed();
  const dropped = start(['jobs', 'drop', waits?.id ?? ''], env);
  expect(await dropped.ended, dropped.said()).toBe(0);
  expect(await asking.ended).toBe(3);
  expect(asking.said()).toContain('this job was dropped from the queue');
  expect((await listed()).map(({ id }) => id)).not.toContain(waits?.id);
});

test.skipIf(redisServer === undefined)(
  'one under way is ended when whoever asked stops, and done when asked again',
  async () => {
    await noWorkers();
    fresh('stopped');
    await smallFootage(folder.path('long.mp4'), 200);
    const content = await shopWith(folder.path('stopped'), 'title: Take\nfiles: [{file: media/long.mp4}]\n');
    await copyFile(folder.path('long.mp4'), join(content, 'media/long.mp4'));
    const one = await worker();
    const asking = start(['analyse', 'take', '--content', content], env);
    while (!(await listed()).some(({ state }) => state === 'under way')) await pause(20);
    expect(await end(asking)).not.toBe(0);
    while ((await listed()).some(({ state }) => state === 'under way')) await pause(20);
    const all = await listed();
    const failed = all.filter(({ state }) => state === 'failed');
    expect(failed.length).toBeGreaterThan(0);
    expect(new Set(failed.map(({ why }) => why))).toEqual(new Set(['stopped on wish']));
    expect(done([one])).toEqual([]);
    const again = start(['analyse', 'take', '--content', content], env);
    expect(await again.ended, again.said()).toBe(0);
    expect(done([one]).length).toBeGreaterThan(0);
  },
);

test.skipIf(redisServer === undefined)('a job that failed is tried again by jobs retry', async () => {
  await noWorkers();
  fresh('failed');
  const asking = start(['analyse', 'take', '--content', await shop('failed')], env);
  await asking.says('no worker is there');
  const names = await readdir(env.LIFTSIDE_STORE ?? '', { recursive: true });
  const camera = join(env.LIFTSIDE_STORE ?? '', names.find((name) => name.includes('/file-')) ?? '');
  await rename(camera, folder.path('taken-away'));
  const one = await worker();
  expect(await asking.ended).toBe(3);
  expect(asking.said()).toContain('is not in the store');
  const failed = (await listed()).filter(({ state }) => state === 'failed');
  expect(failed.map(({ why }) => why?.includes('is not in the store'))).toContain(true);
  await rename(folder.path('taken-away'), camera);
  const retried = start(['jobs', 'retry'], env);
  expect(await retried.ended).toBe(0);
  expect(retried.said()).toContain('will be tried again');
  await one.says('done analyse-');
  while ((await listed()).some(({ state }) => state === 'failed' || state === 'under way')) await pause(20);
});

test.skipIf(redisServer === undefined || !(await findListener()).ok)(
  'a worker with the same model recognises speech',
  async () => {
    await noWorkers();
    fresh('heard');
    const model = await writeToneNetwork(folder.path('model'));
    const words = [
      ['loosen', 1],
      ['the', 2.7],
      ['nut', 4],
    ] as const;
    const shops = [];
    for (const name of ['heard-alone', 'heard']) shops.push((await shopThatSings(folder.path, name, words, 7)).content);
    const [alone = '', many = ''] = shops;
    const one = await worker({ LIFTSIDE_MODEL: model });
    const transcribe = (content: string, more: Record<string, string>) =>
      start(['transcribe', 'take', '--content', content, '--model', model], { ...env, ...more });
    const [calm, spread] = [transcribe(alone, { LIFTSIDE_QUEUE: '' }), transcribe(many, {})];
    expect([await calm.ended, await spread.ended], calm.said() + spread.said()).toEqual([0, 0]);
    const captions = async (content: string) => readFile(join(content, 'media/take.vtt'), 'utf8');
    expect(await captions(many)).toBe(await captions(alone));
    expect(await captions(many)).toContain('loosen');
    expect(done([one]).filter((line) => line.startsWith('done recognise-'))).toHaveLength(1);
  },
);

test.skipIf(redisServer === undefined)('a store that speaks S3 serves as well as a folder', async () => {
  await noWorkers();
  const s3 = await startS3(folder.path('s3'));
  try {
    env = { ...fresh('s3'), ...s3.env };
    const [one, two] = [await worker(), await worker()];
    const content = await shop('over-s3');
    const spread = start(['render', 'take', '--content', content], env);
    expect(await spread.ended, spread.said()).toBe(0);
    const calm = start(['render', 'take', '--content', await shop('alone')], { LIFTSIDE_QUEUE: '' });
    expect(await calm.ended).toBe(0);
    expect(await rendered(content)).toEqual(await rendered(folder.path('alone')));
    const all = done([one, two]);
    expect(new Set(all).size).toBe(all.length);
    // The analysis is a folder of files.
    const seen = start(['analyse', 'take', '--content', content], env);
    expect(await seen.ended, seen.said()).toBe(0);
    await s3.kill();
    const away = start(['render', 'take', '--content', await shop('s3-away')], env);
    expect(await away.ended).toBe(3);
    expect(away.said()).toContain('s3://shop/region/liftside cannot be reached');
  } finally {
    await s3.kill();
  }
});
