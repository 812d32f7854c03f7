import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { discard, roomContent, type Started, startRoom } from '../../support/start-room.ts';
import { send } from './support.ts';

const SHOP = 'name: Millrace Community Garage\ninvented: true\n';
const RECORDING = 'title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: "25"\n';
const LESSON =
  '---\ntitle: Pads\nrecording: pads\nmachine: tarn-420\n---\n## Look\n\n### Look in\nTighten to <Spec of="caliper-bolt" />.\n';
const TABLE = `machine: { title: Tarn 420, years: 2019-2025, invented: true }
documents: { manual: { title: Service manual (invented), invented: true } }
specs:
  - { id: caliper-bolt, title: Caliper bolt, kind: torque, nominal: 27, plusMinus: 3, unit: N·m, source: { document: manual, page: 9 } }
`;
const CLASS =
  'title: Pads\ndate: 2030-01-05\nstarts: "10:00"\nslot: "2:00"\nblocks:\n  - { id: a, title: A, kind: talk, treatments: [{ id: a, worth: 1, minutes: 5 }] }\n';

let content = '';
let room: Started;
let port = 0;
beforeAll(async () => {
  content = await roomContent({
    'shop.yaml': 'name: *shop\n',
    'recordings/pads.yaml': RECORDING,
    'lessons/pads.mdx': LESSON,
    'classes/pads.yaml': CLASS,
    'specs/tarn-420.yaml': TABLE,
  });
  room = await startRoom(content);
  port = Number(new URL(room.address).port);
});
afterAll(async () => {
  await room.stop();
  await discard(content);
});

const get = (path: string) => send(port, path, { headers: { host: `127.0.0.1:${port}` } });

test('start starts on a shop that cannot be read, and says at the top of the page what to mend', async () => {
  const { status, text } = await get('/');
  expect(status).toBe(200);
  expect(text).toContain('no anchor &amp;shop stands above *shop');
  expect(text).toContain('put quotes round a text that begins with *');
});

test.each([
  ['a circle', 'shop.yaml', 'name: &me [*me]\n', '/', 'stands inside what it names'],
  ['tabs', 'shop.yaml', 'name: x\n\tabout: y\n', '/steps/', 'tab'],
  [
    'half a lesson',
    'lessons/pads.mdx',
    LESSON.replace('<Spec of', '<Spec <of'),
    '/lessons/pads/',
    'lessons/pads.mdx:9',
  ],
  [
    'a value that is missing',
    'specs/tarn-420.yaml',
    TABLE.replace('nominal: 27', 'nominal: 2,7'),
    '/lessons/pads/',
    'specs/tarn-420.yaml:4',
  ],
  ['a table that is none', 'specs/tarn-420.yaml', '{{{', '/specs/tarn-420/', 'specs/tarn-420.yaml:1'],
  [
    'a table without its rows',
    'specs/tarn-420.yaml',
    TABLE.replace(/specs:[\s\S]*/, 'specs: []\n'),
    '/lessons/pads/',
    'caliper-bolt',
  ],
  ['a class of nothing', 'classes/pads.yaml', 'null', '/classes/pads/run-sheet/', 'classes/pads.yaml:1'],
  ['a recording of numbers', 'recordings/pads.yaml', '[1, 2, 3]', '/lessons/pads/', 'recordings/pads.yaml:1'],
  ['a kit in other bytes', 'kit.yaml', '\0t\0o\0o\0l\0s\0:', '/', 'UTF-16'],
])('%s answers 200 and says where it is', async (_, file, text, path, words) => {
  const sound = {
    'shop.yaml': SHOP,
    'lessons/pads.mdx': LESSON,
    'specs/tarn-420.yaml': TABLE,
    'classes/pads.yaml': CLASS,
    'recordings/pads.yaml': RECORDING,
    'kit.yaml': 'tools: {}\n',
  };
  for (const [name, whole] of Object.entries(sound)) await writeFile(join(content, name), name === file ? text : whole);
  await expect.poll(async () => (await get(path)).text, { timeout: 60_000, interval: 300 }).toContain(words);
  const answers = await Promise.all(
    ['/', path, '/steps/', '/cutting-room/'].map(async (each) => (await get(each)).status),
  );
  expect(answers).toEqual([200, 200, 200, 200]);
  const page = await get(path);
  expect(page.text).not.toMatch(/a fault in Liftside|\n\s+at |TypeError/);
  expect(room.process.exitCode).toBeNull();
});
