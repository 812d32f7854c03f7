import { copyFile, mkdir, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { dice, ffmpeg, testPicture, workspace } from '../../media/make.ts';
import { shopWith } from '../../media/shop.ts';
import { end, redisServer, type Started, start, startRedis, type TestRedis, TOKEN } from '../../support/queue.ts';
import { mayMount, mountSmallDisk } from '../../support/small-disk.ts';
import { contents, figures, HOME } from '../support/run.ts';

// What goes wrong while several workers render. Reference: the same command on one machine, undisturbed.

const KILLS = 20;
const TAKE =
  'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:25.4"}\n  - {in: "0:00:27.1", out: "0:01:16.9"}\n';
const CLOCK = join(HOME, 'tests/faults/support/clock.mjs');

let folder: Awaited<ReturnType<typeof workspace>>;
let redis: TestRedis;
let calm: Record<string, string>;
let env: Record<string, string>;
let workers: Started[] = [];
let round = 0;

beforeAll(async () => {
  folder = await workspace();
  if (redisServer === undefined) return;
  redis = await startRedis(folder.path('redis'));
  const noise = ['-f', 'lavfi', '-i', 'anoisesrc=c=pink:r=48000:a=0.3:d=80:seed=4'];
  const rest = ['-preset', 'ultrafast', '-g', '5000', '-c:a', 'aac'];
  await ffmpeg(...testPicture('1280x720', '25', 80), ...noise, ...rest, folder.path('a.mp4'));
  const alone = await shop('alone');
  const ended = start(['render', 'take', '--content', alone], { LIFTSIDE_QUEUE: '' });
  expect(await ended.ended, ended.said()).toBe(0);
  calm = await programme(alone);
});
beforeEach(async () => {
  round++;
  workers = [];
  await mkdir(folder.path(`store-${round}`));
  // Another token each time: jobs of one test are none of the next.
  env = {
    LIFTSIDE_QUEUE: redis?.address ?? '',
    LIFTSIDE_TOKEN: `${TOKEN}-${round}`,
    LIFTSIDE_STORE: folder.path(`store-${round}`),
  };
  return async () => {
    await Promise.all(workers.map((worker) => end(worker, 'SIGKILL')));
  };
});
afterAll(async () => {
  await redis?.kill();
  await folder.remove();
});

async function shop(name: string): Promise<string> {
  const content = await shopWith(folder.path(name), TAKE);
  await copyFile(folder.path('a.mp4'), join(content, 'media/a.mp4'));
  return content;
}

const programme = (content: string) => contents(join(content, '.liftside/rendered'));

async function worker(more: Record<string, string> = {}, before: readonly string[] = []): Promise<Started> {
  const started = start(['worker', '--side-by-side', '1'], { ...env, ...more }, before);
  workers.push(started);
  await started.says('ready:');
  return started;
}

const done = () => workers.flatMap((each) => each.said().match(/^done .*$/gm) ?? []);

/** Renders with what the test does meanwhile; afterwards the bytes are those of one machine, and nothing was done twice. */
async function disturbed(
  what: string,
  disturb: (rendering: Started) => Promise<Record<string, number>>,
): Promise<void> {
  const content = await shop(`shop-${round}`);
  const rendering = start(['render', 'take', '--content', content], env);
  const counts = await disturb(rendering);
  expect(await rendering.ended, rendering.said() + workers.map((each) => each.said()).join('\n')).toBe(0);
  expect(await programme(content)).toEqual(calm);
  const finished = done().filter((line) => !line.startsWith('done assemble-picture-'));
  expect(new Set(finished).size).toBe(finished.length);
  figures(what, { ...counts, 'jobs finished': finished.length, 'finished twice': 0, 'other bytes': 0 });
}

const long = test.skipIf(redisServer === undefined);
/** Each bounds itself, ms: so long no machine takes. */
const BOUND = { timeout: 15 * 60_000 };

long(`a worker killed ${KILLS} times by kill -9 in one run: another one goes on`, BOUND, async () => {
  const next = dice(18);
  await disturbed('a worker killed', async (rendering) => {
    let kills = 0;
    while (kills < KILLS) {
      const victim = await worker();
      await pause(200 + next() * 2300);
      // Else there was nothing left to be disturbed.
      expect(rendering.child.exitCode).toBeNull();
      await end(victim, 'SIGKILL');
      kills++;
    }
    await worker();
    return { kills };
  });
});

long('Redis killed by kill -9 in the middle and started again: nothing is lost', BOUND, async () => {
  await disturbed('Redis killed', async () => {
    const [one, two] = [await worker(), await worker()];
    let kills = 0;
    for (const times of [1, 2]) {
      await Promise.race([one.says(/^done /m, times), two.says(/^done /m, times)]);
      await redis.kill();
      kills++;
      await pause(500);
      await redis.start();
    }
    return { kills };
  });
});

long('the store gone for a minute', BOUND, async () => {
  await disturbed('store gone', async () => {
    const one = await worker();
    await one.says(/^done /m);
    const away = folder.path('unplugged');
    await rename(env.LIFTSIDE_STORE ?? '', away);
    await one.says('cannot be reached; waiting for it');
    // The minute is what is tried here.
    await pause(60_000);
    await rename(away, env.LIFTSIDE_STORE ?? '');
    return { 'seconds gone': 60 };
  });
});

test.skipIf(redisServer === undefined || !mayMount())(
  'a worker whose disk is full gives its jobs to another',
  BOUND,
  async () => {
    const small = folder.path('small');
    const disk = mountSmallDisk(small, 80 << 10);
    try {
      await disturbed('a full disk', async () => {
        const full = await worker({ TMPDIR: small });
        await disk.fill();
        await full.says('no job is taken until there is');
        const other = await worker();
        await other.says(/^done /m);
        return { 'disks full': 1 };
      });
    } finally {
      disk.unmount();
    }
  },
);

long('two at the same assembling: one was held up and comes back when the other has it', BOUND, async () => {
  await disturbed('two assemblers', async () => {
    const one = await worker();
    // The pieces are done by it; then it is held where it may have taken the assembling.
    await one.says(/^done encode-picture-/m, 3);
    one.child.kill('SIGSTOP');
    const two = await worker();
    await two.says(/^done assemble-picture-/m);
    one.child.kill('SIGCONT');
    return { 'held up': 1 };
  });
});

long('the clock of one worker is an hour off, of another an hour behind', BOUND, async () => {
  await disturbed('wrong clocks', async () => {
    const off = async (seconds: number) => worker({ LIFTSIDE_CLOCK: `${seconds} 0` }, ['--import', CLOCK]);
    const [early, late] = [await off(3600), await off(-3600)];
    await Promise.all([early.says(/^done /m), late.says(/^done /m)]);
    return { clocks: 2 };
  });
});
