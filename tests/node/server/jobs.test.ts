import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { liveDisplay } from '../../../src/node/cli/live.ts';
import { Progress } from '../../../src/node/media/progress.ts';
import { commandWorker, type Job, Jobs, type StartWorker } from '../../../src/node/server/jobs.ts';
import { type Served, serve } from './support.ts';

/** Processes that a test lets speak and end. */
function workers() {
  const started: { words: readonly string[]; hear(line: string): void; end(code: number): void; stopped: boolean }[] =
    [];
  const start: StartWorker = (words, hear) => {
    let resolve: (code: number) => void = () => {};
    const promise = new Promise<number>((done) => {
      resolve = done;
    });
    const one = { words, hear, end: (code: number) => resolve(code), stopped: false };
    started.push(one);
    const stop = () => {
      one.stopped = true;
    };
    return { ended: promise, stop };
  };
  return { start, started };
}
const settled = () => new Promise((done) => setImmediate(done));
const states = ({ all }: Jobs) => all.map(({ work, state }) => `${work} ${state}`);

test('one piece of work runs at a time, the next one begins when it has ended, none is put in twice', async () => {
  const { start, started } = workers();
  const jobs = new Jobs(start, () => {});
  for (const work of ['align', 'render', 'render', 'align'] as const) jobs.add('chain', work);
  expect(states(jobs)).toEqual(['align running', 'render waiting']);
  expect(started.map(({ words }) => words)).toEqual([['align', 'chain', '--write']]);
  started[0]?.end(0);
  await settled();
  expect(states(jobs)).toEqual(['align done', 'render running']);
  expect(started[1]?.words).toEqual(['render', 'chain']);
  jobs.add('pads', 'burn');
  started[1]?.end(3);
  await settled();
  expect(states(jobs)).toEqual(['align done', 'render failed', 'burn running']);
  expect(started[2]?.words).toEqual(['render', 'pads', '--burn']);
  // Tried again, the failure is told no longer.
  jobs.add('chain', 'render');
  expect(states(jobs)).toEqual(['align done', 'burn running', 'render waiting']);
});

test('how far it is and how long it will take is taken from its lines; the other lines are kept, the last sixty', async () => {
  const { start, started } = workers();
  const heard: (readonly Job[])[] = [];
  const jobs = new Jobs(start, (all) => heard.push(all));
  jobs.add('chain', 'render');
  const [one] = started;
  one?.hear('Encoding: 4 %');
  expect(heard.at(-1)?.[0]).toMatchObject({ share: 0.04, now: 'Encoding' });
  one?.hear('Encoding: 42 %, about 3 min left');
  expect(heard.at(-1)?.[0]).toMatchObject({ share: 0.42, now: 'Encoding, about 3 min left', lines: [] });
  for (let i = 0; i < 70; i++) one?.hear(`note: ${i}`);
  one?.hear('');
  one?.hear('the disk is full');
  one?.end(3);
  await settled();
  const [job] = jobs.all;
  expect([job?.state, job?.lines.length, job?.lines.at(-1)]).toEqual(['failed', 60, 'the disk is full']);
});

test('work is stopped while it runs and while it waits; what waits behind it goes on', async () => {
  const { start, started } = workers();
  const jobs = new Jobs(start, () => {});
  for (const work of ['analyse', 'align', 'render'] as const) jobs.add('chain', work);
  jobs.stop(jobs.all[1]?.id ?? 0);
  jobs.stop(jobs.all[0]?.id ?? 0);
  expect([started[0]?.stopped, jobs.all[0]?.now]).toEqual([true, 'Stopping']);
  // What it still says does not make it look busy again.
  started[0]?.hear('Looking: 50 %, about 1 min left');
  expect(jobs.all[0]?.now).toBe('Stopping');
  started[0]?.end(3);
  await settled();
  expect(states(jobs)).toEqual(['analyse stopped', 'align stopped', 'render running']);
  jobs.close();
  expect(started[1]?.stopped).toBe(true);
});

test('a program that shows progress is told each step, in the words that it is read by', () => {
  const said: string[] = [];
  let now = 0;
  const display = liveDisplay({
    terminal: false,
    say: (text: string) => void said.push(text),
    now: () => new Date(now),
    env: { LIFTSIDE_PROGRESS: 'often' },
  } as unknown as Parameters<typeof liveDisplay>[0]);
  const progress = new Progress(display);
  progress.start('Encoding');
  progress.expect(100);
  const step = progress.step(100);
  now = 10_000;
  step.reached(25);
  const { start, started } = workers();
  const jobs = new Jobs(start, () => {});
  jobs.add('chain', 'render');
  for (const line of said) started[0]?.hear(line);
  // A quarter in ten seconds: thirty are left.
  expect(jobs.all[0]).toMatchObject({ share: 0.25, now: 'Encoding, about 30 s left' });
});

test('a real process says why it ends, and with what code', async () => {
  const lines: string[] = [];
  const worker = commandWorker(process.cwd(), process.cwd())(['render', 'nothing'], (line) => lines.push(line));
  expect(await worker.ended).not.toBe(0);
  expect(lines.join('\n')).toContain('no recording "nothing"');
});

let room: Served;
const { start, started } = workers();
beforeAll(async () => {
  room = await serve(start);
});
afterAll(() => room.close());
const JOBS = '/cutting-room/api/jobs/';

test('the page starts, sees and stops work; what it asks wrongly starts nothing', async () => {
  expect((await room.own(JOBS, { recording: 'pads', work: 'wash' })).status).toBe(400);
  expect((await room.own(JOBS, { recording: '../pads', work: 'render' })).status).toBe(400);
  expect((await room.own(JOBS, { recording: 'gone', work: 'render' })).status).toBe(404);
  expect((await room.ask(JOBS, { method: 'POST', body: '{}' })).status).toBe(403);
  expect(started).toHaveLength(0);
  const heard: unknown[] = [];
  const end = room.hub.listen((news) => heard.push(news.kind));
  const answer = JSON.parse((await room.own(JOBS, { recording: 'pads', work: 'render' })).text);
  expect(answer.jobs).toMatchObject([{ recording: 'pads', work: 'render', state: 'running' }]);
  expect(heard).toContain('jobs');
  end();
  await room.own(`${JOBS}stop/`, { id: answer.jobs[0].id });
  expect(started[0]?.stopped).toBe(true);
  started[0]?.end(3);
  await settled();
  expect(JSON.parse((await room.own(JOBS)).text).jobs).toMatchObject([{ state: 'stopped' }]);
});

test('a programme is told with whether it is up to date, and its own files alone are given out', async () => {
  const folder = join(room.content, '.liftside/rendered/pads');
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'pads.mp4'), 'the film');
  await writeFile(join(folder, 'secret.txt'), 'not of it');
  const manifest = {
    ...{ version: 1, recording: 'pads', edit: [[0, 1]], inputs: [], length: 705_600_000, frame: 1 },
    files: { programme: { name: 'pads.mp4', bytes: 8 } },
  };
  await writeFile(join(folder, 'manifest.json'), JSON.stringify(manifest));
  const { made } = JSON.parse((await room.own('/cutting-room/api/programme/?recording=pads')).text);
  expect(made).toEqual([{ burnt: false, name: 'pads.mp4', length: 705_600_000, current: false }]);
  const file = (path: string) => room.own(`/cutting-room/api/programme-file/${path}`);
  expect((await file('plain/pads/pads.mp4')).text).toBe('the film');
  const others = ['plain/pads/secret.txt', 'plain/pads/manifest.json', 'burnt/pads/pads.mp4'];
  for (const path of others) expect((await file(path)).status, path).toBe(404);
});

test('a lesson and its recording are exported from the page, with what could not be carried', async () => {
  const at = (query: string) => room.own(`/cutting-room/api/export/${query}`);
  const { formats } = JSON.parse((await at('')).text);
  expect(formats.map(({ id }: { id: string }) => id)).toContain('edl');
  expect(formats.map(({ id }: { id: string }) => id)).not.toContain('ics');
  const chapters = JSON.parse((await at('?to=chapter-list&recording=pads&lesson=pads')).text);
  expect(chapters.name).toBe('pads.txt');
  expect(chapters.text).toContain('Get ready');
  expect((await at('?to=vtt&recording=pads&lesson=pads')).status).toBe(422);
  expect((await at('?to=edl&recording=gone&lesson=pads')).status).toBe(404);
  expect((await at('?to=ics&recording=pads&lesson=pads')).status).toBe(400);
});
