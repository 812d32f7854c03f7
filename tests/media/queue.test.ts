import { copyFile, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { connect } from '../../src/node/queue/connect.ts';
import { contents } from '../faults/support/run.ts';
import { addForged, type FakeJob } from '../support/forged-job.ts';
import { end, redisServer, type Started, start, startRedis, type TestRedis, TOKEN } from '../support/queue.ts';
import { smallFootage, workspace } from './make.ts';
import { shopWith } from './shop.ts';

// Work of several machines, as processes of this one. Reference: the same command without a queue.
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

async function worker(more: Record<string, string> = {}): Promise<Started> {
  const started = start(['worker', '--side-by-side', '1'], { ...env, ...more });
  workers.push(started);
  await started.says('ready:');
  return started;
}

const done = (started: readonly Started[]) => started.flatMap((each) => each.said().match(/^done .*$/gm) ?? []);

test.skipIf(redisServer === undefined)('workers make the same bytes as one machine, and nothing twice', async () => {
  const [alone, many] = [await shop('alone'), await shop('many')];
  const [one, two] = [await worker(), await worker()];
  const [calm, spread] = [
    start(['render', 'take', '--content', alone], { LIFTSIDE_QUEUE: '' }),
    start(['render', 'take', '--content', many], env),
  ];
  expect([await calm.ended, await spread.ended], calm.said() + spread.said()).toEqual([0, 0]);
  const rendered = (content: string) => contents(join(content, '.liftside/rendered'));
  expect(await rendered(many)).toEqual(await rendered(alone));
  const all = done([one, two]);
  expect(new Set(all).size).toBe(all.length);
  expect(done([one]).length).toBeGreaterThan(0);
  expect(done([two]).length).toBeGreaterThan(0);
  expect(all.some((line) => line.startsWith('done assemble-picture-'))).toBe(true);
  // Asked again by a shop that has none of it, all is in the store.
  expect(await start(['render', 'take', '--content', await shop('third')], env).ended).toBe(0);
  expect(done([one, two])).toEqual(all);
});

test.skipIf(redisServer === undefined)('a worker does no job that does not bear the token, and says so', async () => {
  const forged: FakeJob = { id: `encode-picture-${'0'.repeat(32)}`, token: `${TOKEN}-of-somebody-else` };
  const connected = await connect({ address: redis.address, token: TOKEN, store: '' });
  await addForged(connected, forged);
  const told = async () => workers.map((each) => each.said()).join('');
  while (!(await told()).includes(`${forged.id} failed: the job ${forged.id} does not bear the shop's token`))
    await pause(20);
  const listed = start(['jobs', 'list'], env);
  expect(await listed.ended).toBe(0);
  expect(listed.said()).toContain("does not bear the shop's token");
  const dropped = start(['jobs', 'drop', forged.id], env);
  expect(await dropped.ended, dropped.said()).toBe(0);
  await connected.close();
  expect(done(workers).join()).not.toContain(forged.id);
});

test.skipIf(redisServer === undefined)(
  'what waits is told to whoever asked, stops when they stop, and goes on later',
  async () => {
    const other = { ...env, LIFTSIDE_TOKEN: `${TOKEN}-another-shop` };
    const content = await shop('waiting');
    const asking = start(['render', 'take', '--loudness', 'keep', '--content', content], other);
    await asking.says('no worker is there');
    expect(await end(asking)).not.toBe(0);
    const listed = start(['jobs', 'list'], other);
    expect(await listed.ended).toBe(0);
    expect(listed.said()).toContain('no worker is there; 0 jobs open');
  },
);
