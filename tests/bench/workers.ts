/**
 * Work of several machines, in one run: each figure against the same command on this machine alone.
 *
 *     npx node tests/bench/workers.ts [minutes of footage, 4 when left out]
 *
 * One worker and three, each doing one job at a time, over a folder as the store; the share of the gain that the
 * processors explain; then three workers for two shops at once; then a store that speaks S3 (s3rver, on this machine),
 * with the share of the camera files that workers fetched for the encoding alone. It needs redis-server.
 */
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { ffmpeg, testPicture } from '../media/make.ts';
import { end, type Started, start, startRedis, type TestRedis, TOKEN } from '../support/queue.ts';
import { startS3 } from '../support/s3-server.ts';

const minutes = Number(process.argv[2] ?? 4);
const folder = await mkdtemp(join(tmpdir(), 'bench-workers-'));
const place = (name: string) => join(folder, name);
const cores = availableParallelism();

function say(what: string, figures: string): void {
  process.stdout.write(`${what.padEnd(52)} ${figures}\n`);
}

/** A shop with one recording, cut once a minute. */
async function shop(name: string): Promise<string> {
  for (const room of ['recordings', 'media']) await mkdir(join(place(name), room), { recursive: true });
  await writeFile(join(place(name), 'shop.yaml'), 'name: Bench\n');
  const cuts = Array.from({ length: minutes }, (_, i) => `  - {in: "0:0${i}:03.36", out: "0:0${i}:52.4"}\n`).join('');
  await writeFile(
    join(place(name), 'recordings/take.yaml'),
    `title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n${cuts}`,
  );
  await copyFile(place('a.mp4'), join(place(name), 'media/a.mp4'));
  return place(name);
}

/** Seconds of processor that a process and what it has started and ended took, from Linux. */
async function cpuOf({ child }: Started): Promise<number> {
  const text = await readFile(`/proc/${child.pid}/stat`, 'utf8').catch(() => '');
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return [11, 12, 13, 14].reduce((sum, i) => sum + Number(fields[i] ?? 0), 0) / 100;
}

interface Run {
  readonly seconds: number;
  readonly cpu: number;
  readonly said: readonly string[];
}

/** Renders shops at once with so many workers. */
async function run(names: readonly string[], count: number, env: Readonly<Record<string, string>>): Promise<Run> {
  const workers = Array.from({ length: count }, () => start(['worker', '--side-by-side', '1'], env));
  for (const worker of workers) await worker.says('ready:');
  const before = (await Promise.all(workers.map(cpuOf))).reduce((a, b) => a + b, 0);
  const contents = await Promise.all(names.map((name) => shop(name)));
  const from = performance.now();
  const asking = contents.map((content) => start(['render', 'take', '--content', content], env));
  for (const each of asking) if ((await each.ended) !== 0) throw new Error(each.said());
  const seconds = (performance.now() - from) / 1000;
  const cpu = (await Promise.all(workers.map(cpuOf))).reduce((a, b) => a + b, 0) - before;
  await Promise.all(workers.map((worker) => end(worker)));
  return { seconds, cpu, said: workers.map((worker) => worker.said()) };
}

async function sizeOf(path: string): Promise<number> {
  let bytes = 0;
  for (const entry of await readdir(path, { recursive: true, withFileTypes: true }))
    if (entry.isFile()) bytes += (await stat(join(entry.parentPath, entry.name))).size;
  return bytes;
}

let redis: TestRedis | undefined;
const s3 = await startS3(place('s3'));
try {
  redis = await startRedis(place('redis'));
  const address = redis.address;
  const env = async (name: string) => {
    await mkdir(place(`store-${name}`));
    return { LIFTSIDE_QUEUE: address, LIFTSIDE_TOKEN: `${TOKEN}-${name}`, LIFTSIDE_STORE: place(`store-${name}`) };
  };
  const sound = ['-f', 'lavfi', '-i', `anoisesrc=c=pink:r=48000:a=0.3:d=${minutes * 60}:seed=4`];
  // One key picture at the beginning: all of the picture has to be encoded.
  const coding = ['-preset', 'ultrafast', '-g', '100000', '-c:a', 'aac'];
  await ffmpeg(...testPicture('640x360', '25', minutes * 60), ...sound, ...coding, place('a.mp4'));
  const mega = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
  say(
    `footage: ${minutes} min, 640x360, ${mega((await stat(place('a.mp4'))).size)}`,
    `load ${loadavg()[0]?.toFixed(1)}, ${cores} processors`,
  );

  const alone = await shop('alone');
  const from = performance.now();
  const calm = start(['render', 'take', '--content', alone], { LIFTSIDE_QUEUE: '' });
  if ((await calm.ended) !== 0) throw new Error(calm.said());
  const seconds = (performance.now() - from) / 1000;
  say('this machine alone, a job for each processor', `${seconds.toFixed(1)} s`);

  const one = await run(['one'], 1, await env('one'));
  const busy = one.cpu / one.seconds;
  say(
    'one worker, one job at a time',
    `${one.seconds.toFixed(1)} s, ${one.cpu.toFixed(1)} s of processor, ${busy.toFixed(2)} processors busy`,
  );
  const three = await run(['three'], 3, await env('three'));
  const gain = one.seconds / three.seconds;
  const most = Math.min(3, cores / busy);
  say('three workers, one job at a time each', `${three.seconds.toFixed(1)} s, ${three.cpu.toFixed(1)} s of processor`);
  say(
    'three against one',
    `${gain.toFixed(2)} times as fast; ${cores} processors allow ${most.toFixed(2)}: ${((gain / most) * 100).toFixed(0)} % of that`,
  );
  say('store after one lesson: footage and all pieces', mega(await sizeOf(place('store-one'))));
  say('programme of it', mega(await sizeOf(join(place('one'), '.liftside/rendered'))));

  const two = await run(['shop-a', 'shop-b'], 3, await env('two'));
  say(
    'three workers, two shops with the same footage',
    `${two.seconds.toFixed(1)} s: the second shop costs ${((two.seconds / three.seconds - 1) * 100).toFixed(0)} % more`,
  );

  const away = await run(['s3'], 3, { ...(await env('s3')), ...s3.env });
  say('three workers over S3 on this machine', `${away.seconds.toFixed(1)} s`);
  for (const said of away.said) say('  one of them', /of camera files.*$/m.exec(said)?.[0] ?? 'fetched nothing');
} finally {
  await redis?.kill();
  await s3.kill();
  await rm(folder, { recursive: true, force: true });
}
