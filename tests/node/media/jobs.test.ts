import { mkdir, mkdtemp, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { PictureJob } from '../../../src/core/media/index.ts';
import { runJobs, type Task, type Workplace, want } from '../../../src/node/media/pool.ts';
import { type Display, inWords, Progress, SILENT } from '../../../src/node/media/progress.ts';
import { Store } from '../../../src/node/media/store.ts';
import { encodePicture, encodeSound, measureSound, readMeasured } from '../../../src/node/media/tasks.ts';
import { FakeFfmpeg } from '../../support/fake-ffmpeg.ts';

let content: string;
let fake: FakeFfmpeg;
let place: Workplace;
beforeEach(async () => {
  content = await mkdtemp(join(tmpdir(), 'liftside-jobs-'));
  fake = await FakeFfmpeg.make();
  const store = await Store.open(content);
  place = {
    tools: fake.tools,
    store,
    signal: new AbortController().signal,
    progress: new Progress(SILENT),
    workers: 1,
  };
});
afterEach(async () => {
  await rm(content, { recursive: true, force: true });
  await fake.remove();
});

const done: string[] = [];
const note: Task<{ word: string }> = {
  name: 'note',
  version: 1,
  extension: 'txt',
  async run({ word }, inputs, output) {
    done.push(word);
    if (word === 'bad') throw new Error('no such word');
    await writeFile(output, `${word} ${inputs.join()}`);
  },
};
const job = (word: string, seconds = 1, input = { path: '/a', content: 'a1' }) =>
  want(note, [input], { word }, seconds);

describe('jobs', () => {
  beforeEach(() => void done.splice(0));

  test('the longest is done first; results come in the order asked for; what was done is not done again', async () => {
    const paths = await runJobs([job('short', 1), job('long', 9), job('middle', 5)], place);
    expect(done).toEqual(['long', 'middle', 'short']);
    expect(await Promise.all(paths.map((path) => readFile(path, 'utf8')))).toEqual([
      'short /a',
      'long /a',
      'middle /a',
    ]);
    place.progress.start('again');
    expect(await runJobs([job('short', 1), job('long', 9)], place)).toEqual(paths.slice(0, 2));
    expect(done).toHaveLength(3);
    expect(place.progress.reused).toBe(10);
  });

  test('one that is asked for twice is done once', async () => {
    const [a, b] = await runJobs([job('same'), job('same')], place);
    expect([a === b, done]).toEqual([true, ['same']]);
  });

  test('its result depends on content, parameters and the version of ffmpeg, not on where a file lies', async () => {
    const path = async (one: ReturnType<typeof job>, tools = fake.tools) =>
      (await runJobs([one], { ...place, tools }))[0];
    const first = await path(job('x'));
    expect(await path(job('x', 1, { path: '/moved', content: 'a1' }))).toBe(first);
    const others = [
      await path(job('x', 1, { path: '/a', content: 'a2' })),
      await path(job('y')),
      await path(job('x'), { ...fake.tools, version: '10' }),
    ];
    expect(new Set([first, ...others]).size).toBe(4);
  });

  test('a failure ends the rest, and leaves no result under its name', async () => {
    await expect(runJobs([job('bad', 9), job('good', 1)], place)).rejects.toThrow('no such word');
    expect(done).toEqual(['bad']);
    expect(await readdir(join(content, '.liftside/media'))).toEqual([]);
  });
});

describe('the store', () => {
  const DAY = 24 * 3600;
  const aged = async (name: string, days: number) => {
    const path = join(content, '.liftside/media', name);
    await writeFile(path, 'x');
    const at = Date.now() / 1000 - days * DAY;
    await utimes(path, at, at);
  };

  test('results that nobody asked for in thirty days go when it closes', async () => {
    await aged('young', 29.9);
    await aged('old', 30.1);
    await place.store.close();
    expect(await readdir(join(content, '.liftside/media'))).toEqual(['young']);
  });

  test('asking for one makes it young again', async () => {
    await aged('old', 400);
    const path = join(content, '.liftside/media', 'old');
    expect(await place.store.has(path)).toBe(true);
    expect(Date.now() - (await stat(path)).mtimeMs).toBeLessThan(DAY * 1000);
    expect(await place.store.has(join(content, '.liftside/media', 'none'))).toBe(false);
  });

  test('what a run that was killed left half done goes when the next one opens; a living one keeps its own', async () => {
    const tmp = join(content, '.liftside/tmp');
    // No process has this number: it is above the highest that Linux gives.
    await mkdir(join(tmp, '4194305-dead'), { recursive: true });
    await mkdir(join(tmp, `${process.ppid}-alive`), { recursive: true });
    await mkdir(join(tmp, 'no-number'), { recursive: true });
    await Store.open(content);
    const names = await readdir(tmp);
    expect(names).toContain(`${process.ppid}-alive`);
    expect(names.some((name) => name.endsWith('dead') || name === 'no-number')).toBe(false);
  });
});

describe('tasks, as plans for ffmpeg', () => {
  const picture: PictureJob = {
    first: 50,
    count: 25,
    rate: '25/1',
    stream: 0,
    start: 0,
    clock: 0,
    lead: 0,
    drift: 0,
    fit: null,
    turn: false,
    deinterlace: false,
    even: true,
    burnt: null,
    coding: {
      codec: 'h264',
      profile: null,
      level: null,
      parameterSet: 0,
      bFrames: 0,
      crf: 20,
      preset: 'fast',
      group: 50,
    },
  };

  test('sound that is measured is read block by block, the first three left out', async () => {
    await fake.answers({
      writes: {
        'loudness.txt': [-70, -30, -24, -23.5, '-inf', -22.5]
          .map((level, i) => `frame:${i}\nlavfi.r128.M=${level}\nlavfi.r128.true_peak=${0.1 * (i + 1)}\n`)
          .join(''),
      },
    });
    const inputs = [{ path: '/sound.mp4', content: 's' }];
    const [path = ''] = await runJobs([want(measureSound, inputs, { pieces: [], inputs: [], channels: 2 }, 1)], place);
    const { blocks, truePeak } = JSON.parse(await readFile(path, 'utf8'));
    expect(blocks).toEqual([-23.5, -120, -22.5]);
    expect(truePeak).toBeCloseTo(20 * Math.log10(0.6), 9);
    expect((await fake.calls()).flat().join(' ')).toContain('ebur128=peak=true:metadata=1');
  });

  test('silence has no true peak', () => {
    expect(readMeasured('lavfi.r128.M=nan\n'.repeat(4))).toEqual({ blocks: [-120] });
  });

  test('sound in fewer frames than planned is refused, not laid out of step', async () => {
    // Two ADTS frames of eight bytes (ISO/IEC 14496-3, 1.A.2.2.1): sync word, then the length in 13 bits.
    const frame = '\xff\xf1\x4c\x80\x01\x1f\xfcx';
    await fake.answers({ writes: { output: frame.repeat(2) } });
    const params = {
      pieces: [],
      inputs: [],
      channels: 2,
      skip: 1,
      level: { gain: 0, limit: false, ceiling: -1 },
      bitRate: 96_000,
    };
    const sound = (count: number) => want(encodeSound, [], { ...params, count }, 1);
    const [path = ''] = await runJobs([sound(1)], place);
    expect(await readFile(path, 'latin1')).toBe(frame);
    await expect(runJobs([sound(2)], place)).rejects.toThrow('ffmpeg 9.9 made 1 of 2 sound frames');
  });

  test('a picture is encoded from its input to a temporary name, and kept under its own', async () => {
    await fake.answers({ writes: { output: 'picture' } });
    const [path = ''] = await runJobs(
      [want(encodePicture, [{ path: '/cam.mp4', content: 'c' }], { picture }, 1)],
      place,
    );
    const [args = []] = await fake.calls();
    expect(args).toContain('file:/cam.mp4');
    expect(args.join(' ')).toContain('trim=start_pts=50:end_pts=75');
    expect(args.at(-1)).toMatch(/\.liftside\/tmp\/.*\.mp4$/);
    expect(await readFile(path, 'utf8')).toBe('picture');
  });

  test('a job without its input is a fault of the program', async () => {
    const params = { picture: {} } as unknown as Parameters<typeof encodePicture.run>[0];
    await expect(runJobs([want(encodePicture, [], params, 1)], place)).rejects.toThrow('a job lacks input 0');
  });
});

describe('progress', () => {
  function display(terminal: boolean) {
    const lines: string[] = [];
    const clock = { at: 0 };
    const shown: Display = { terminal, line: (text) => lines.push(text), now: () => clock.at };
    return { lines, clock, progress: new Progress(shown) };
  }

  test.each([
    [true, 250],
    [false, 15_000],
  ])('on a terminal (%s) a line comes every %d ms', (terminal, every) => {
    const { lines, clock, progress } = display(terminal);
    progress.start('Rendering');
    progress.expect(100);
    const step = progress.step(100);
    if (terminal) step.reached(1);
    lines.length = 0;
    clock.at += every - 1;
    step.reached(10);
    expect(lines).toEqual([]);
    clock.at += 1;
    step.reached(25);
    expect(lines).toEqual([`Rendering: 25 %, about ${inWords((3 * every) / 1000)} left`]);
  });

  test('the time left is told only once there is something to go by', () => {
    const { lines, clock, progress } = display(true);
    progress.start('Rendering');
    progress.expect(100);
    const step = progress.step(100);
    clock.at = 1000;
    step.reached(2);
    clock.at = 2000;
    step.reached(3);
    expect(lines).toEqual(['Rendering: 2 %', 'Rendering: 3 %, about 65 s left']);
  });

  test('a step never goes back, nor past its end', () => {
    const { lines, clock, progress } = display(true);
    progress.start('Rendering');
    progress.expect(10);
    progress.expect(10);
    const step = progress.step(10);
    step.reached(8);
    clock.at = 1000;
    step.reached(5);
    clock.at = 2000;
    step.reached(99);
    expect(lines.map((line) => line.slice(0, 15))).toEqual(['Rendering: 40 %', 'Rendering: 40 %', 'Rendering: 50 %']);
  });

  test.each([
    [0.2, '1 s'],
    [89.4, '89 s'],
    [90, '2 min'],
    [5399, '90 min'],
    [5400, '1.5 h'],
  ])('%d s is %s', (seconds, words) => expect(inWords(seconds)).toBe(words));
});
