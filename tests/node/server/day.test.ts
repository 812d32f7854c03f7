import { appendFile, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Served, serve } from './support.ts';

let room: Served;
beforeEach(async () => {
  room = await serve();
});
afterEach(() => room.close());

const API = '/cutting-room/api/day/';
const send = async (...events: readonly object[]) => {
  const { status, text } = await room.own(`${API}events/`, { class: 'test', events });
  return { status, ...(JSON.parse(text) as { at?: number; notices?: string[] }) };
};
const opened = async () =>
  JSON.parse((await room.own(`${API}?class=test`)).text) as { at: number | null; events: { id: string; at: number }[] };
const actual = () => readFile(join(room.content, 'classes/test.actual.yaml'), 'utf8');
const log = () => join(room.content, '.liftside/day/test.jsonl');

test('what happens is on the disk before the answer: in the log, and as minutes in the content', async () => {
  expect((await opened()).at).toBe(null);
  const { at = Number.NaN } = await send({ id: 'a', at: 0, kind: 'begin' });
  await send({ id: 'b', at: at + 330, kind: 'next' }, { id: 'q', at: at + 340, kind: 'question', words: 'Why?' });
  expect(await actual()).toContain('- id: welcome\n    treatment: full\n    minutes: 5.5\n');
  expect(await readFile(join(room.content, 'questions/test.yaml'), 'utf8')).toContain('words: Why?');
  expect((await readFile(log(), 'utf8')).match(/"event"/g)).toHaveLength(3);
});

test('an event that comes twice counts once, and half a line of a crash costs that line only', async () => {
  await send({ id: 'a', at: 0, kind: 'begin' });
  await appendFile(log(), '{"event":{"id":"x","at":');
  await send({ id: 'a', at: 0, kind: 'begin' }, { id: 'b', at: 300, kind: 'next' });
  expect((await opened()).events.map(({ id }) => id)).toEqual(['a', 'b']);
});

test('the class goes on where it was after the page, or the server, comes back', async () => {
  const { at = Number.NaN } = await send({ id: 'a', at: 0, kind: 'begin' });
  room.clock.skip += 90_000;
  const later = await opened();
  expect(later.events).toEqual([{ id: 'a', at, kind: 'begin' }]);
  expect((later.at ?? 0) - at).toBeGreaterThanOrEqual(90);
  expect((later.at ?? 0) - at).toBeLessThan(180);
});

test('what somebody else wrote into the content stays, and it is told', async () => {
  await send({ id: 'a', at: 0, kind: 'begin' });
  const { at = 0 } = await send({ id: 'b', at: 300, kind: 'next' });
  const own = await actual();
  await writeFile(join(room.content, 'classes/test.actual.yaml'), `${own}# by hand\n`);
  const { notices = [] } = await send({ id: 'c', at: at + 600, kind: 'next' });
  expect(notices[0]).toMatch(/classes\/test\.actual\.yaml was written by somebody else and stays as it is/);
  expect(await actual()).toBe(`${own}# by hand\n`);
});

test('a class of long ago is another class: the next one begins anew, and the old log stays beside it', async () => {
  await send({ id: 'a', at: 0, kind: 'begin' });
  room.clock.skip += 13 * 3_600_000;
  expect(await opened()).toMatchObject({ at: null, events: [] });
  await send({ id: 'b', at: 0, kind: 'begin' });
  expect((await opened()).events.map(({ id }) => id)).toEqual(['b']);
});

test('begun anew, what was written down is laid aside', async () => {
  await send({ id: 'a', at: 0, kind: 'begin' });
  await room.own(`${API}afresh/`, { class: 'test' });
  expect(await opened()).toMatchObject({ at: null, events: [] });
});

test.each([
  ['another class', { class: 'none', events: [] }, 404],
  ['what is no event', { class: 'test', events: [{ id: 'a', at: 0, kind: 'explode' }] }, 400],
  ['a name that leads out', { class: '../../x', events: [] }, 400],
  ['too much of it', { class: 'test', events: [{ id: 'a', at: 0, kind: 'question', words: 'x'.repeat(501) }] }, 400],
])('%s is refused', async (_, body, status) => {
  expect((await room.own(`${API}events/`, body)).status).toBe(status);
});

test('without the token of this start nothing is told or taken', async () => {
  expect((await room.ask(`${API}?class=test`)).status).toBe(401);
});

const CLASS = `title: Pads   # spring
date: 2027-03-06
starts: "10:00"
slot: "0:30"
attendees: 8
blocks:
  - {id: talk, title: Talk, kind: talk, must: true, treatments: [{id: a, worth: 5, minutes: 5}]}
  - id: vices
    title: At the vices
    kind: hands-on
    treatments: [{id: s, worth: 50, stations: {count: 4, group: 2, minutes: 20}}]
`;
const post = async (path: string, more: object = {}): Promise<Record<string, unknown>> => {
  await mkdir(join(room.content, 'classes'), { recursive: true });
  const file = join(room.content, 'classes/pads.yaml');
  await readFile(file).catch(() => writeFile(file, CLASS));
  const body = { class: 'pads', without: [], with: [], at: [], ...more };
  const { status, text } = await room.own(`${API}${path}/`, body);
  return { status, file: await readFile(file, 'utf8'), ...(JSON.parse(text) as Record<string, unknown>) };
};

test('what if: the ninth at four vices, two at each, costs a second turn; nothing is written by trying', async () => {
  expect(await post('try')).toMatchObject({
    fits: true,
    left: [],
    blocks: [{ title: 'Talk' }, { title: 'At the vices' }],
  });
  const nine = await post('try', { attendees: '9' });
  expect(nine).toMatchObject({
    status: 200,
    blocks: [{ clock: '10:00', length: '5 min', title: 'Talk' }],
    file: CLASS,
  });
  expect(String(nine.left)).toContain('At the vices');
  expect(await post('try', { attendees: '9', slot: '1:00' })).toMatchObject({
    turns: [expect.stringContaining('the 9th attendee costs 20 min')],
  });
});

test('what was tried is kept at its place in the file, and not when the class does not fit so', async () => {
  expect(await post('keep', { attendees: '9', slot: '1:00' })).toMatchObject({
    status: 200,
    kept: 'classes/pads.yaml',
    file: CLASS.replace('"0:30"', '"1:00"').replace('attendees: 8', 'attendees: 9'),
  });
  expect(await post('keep', { slot: '0:03' })).toMatchObject({
    status: 409,
    problem: expect.stringContaining('does not fit'),
  });
  expect(await post('keep')).toMatchObject({ status: 409, problem: 'nothing was tried' });
  expect(await post('try', { with: ['vices=none'] })).toMatchObject({ status: 409 });
});
