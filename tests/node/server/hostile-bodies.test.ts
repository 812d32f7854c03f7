import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ROUTES } from '../../../src/node/server/routes.ts';
import { LESSON, RECORDING, type Served, serve, TOKEN } from './support.ts';

/** `npm run mutations` tries many more. */
const RUNS = Number(process.env.LIFTSIDE_MUTATIONS ?? 30);
const ROOM = '/cutting-room/';
const CLASS = `title: Chain, Saturday
date: 2027-03-06
starts: "10:00"
slot: "2:00"
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true
    treatments:
      - {id: talk, minutes: [3, 5, 8], worth: 10}
  - id: end
    title: End
    kind: questions
    treatments:
      - {id: full, minutes: [3, 5, 8], worth: 10}
`;
const tap = { id: 'first-tap', lesson: 'pads', kind: 'clap', at: 1_804_327_200_000 };

/** What our own pages send to each address that takes something, so that what is changed in it is read far. */
const SENT: Readonly<Record<string, unknown>> = {
  'api/save/': { changes: [{ file: 'lessons/pads.mdx', was: LESSON, text: `${LESSON}\nmore\n` }] },
  'api/footage/': { id: 'new-take', title: 'New take', files: ['media/pads.mp4'] },
  'api/jobs/': { recording: 'pads', work: 'analyse' },
  'api/jobs/stop/': { id: 1 },
  'api/phone/open/': { class: 'test', as: 'lead', address: '127.0.0.1' },
  'api/phone/close/': {},
  'api/shoot-log/': { taps: [tap, { ...tap, id: 'second-tap' }] },
  'api/day/events/': {
    class: 'test',
    events: [
      { id: 'a', at: 0, kind: 'begin' },
      { id: 'b', at: 60, kind: 'question', words: 'Why?', step: 'wheel-off' },
      { id: 'c', at: 90, kind: 'change', changes: [{ block: 'end', treatment: null }], text: 'left out' },
    ],
  },
  'api/day/afresh/': { class: 'test' },
  'api/day/show/': { class: 'test', room: {}, lead: {} },
  'api/day/try/': { class: 'test', attendees: '9', slot: '1:45', without: [], with: ['end=full'], at: ['end=11:00'] },
  'api/day/keep/': { class: 'test', attendees: '9', without: [], with: [], at: [] },
};

/** What is understood and cannot be done all the same: that file holds no film. */
const ANSWERED: Readonly<Record<string, number>> = { 'api/footage/': 422 };

/** What stands where something else was meant. */
const odd: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(
    ...[null, true, -1, 1e308, 0.1, '', '../../outside', '/etc/passwd', '__proto__', 'constructor', 'toString', 'a/b'],
    ...['pads\u0000', '\ud800', '((', '.*', '%2e%2e', 'x'.repeat(70_000), [], {}, [[]], { length: 3 }, { toJSON: 1 }],
    ...['shop.yaml', 'lessons/../../outside', '.liftside/lock', 'recordings/x.yaml/y', 'lessons/.hidden.mdx'],
  ),
  fc.jsonValue({ maxDepth: 3 }),
);

type Change = readonly [part: number, how: number, what: unknown];
const changes: fc.Arbitrary<readonly Change[]> = fc.array(fc.tuple(fc.nat(), fc.nat(3), odd), {
  minLength: 1,
  maxLength: 3,
});

/** One part of a value is another one, is gone, is there twice or holds more. */
function changed(value: unknown, [part, how, what]: Change): unknown {
  const holders: { holder: Record<string, unknown>; key: string }[] = [];
  const walk = (holder: Record<string, unknown>) => {
    for (const [key, inner] of Object.entries(holder)) {
      holders.push({ holder, key });
      if (typeof inner === 'object' && inner !== null) walk(inner as Record<string, unknown>);
    }
  };
  const root: Record<string, unknown> = { value: structuredClone(value) };
  walk(root);
  const { holder, key } = holders[part % holders.length] ?? { holder: root, key: 'value' };
  if (how === 0) holder[key] = what;
  else if (how === 1) delete holder[key];
  else if (how === 2) holder[key] = [holder[key], holder[key], what];
  else holder[typeof what === 'string' ? what.slice(0, 50) : 'more'] = what;
  return root.value;
}

let room: Served;
let outside: readonly string[];
beforeAll(async () => {
  room = await serve();
  await mkdir(join(room.content, 'classes'), { recursive: true });
  await writeFile(join(room.content, 'classes/test.yaml'), CLASS);
  outside = await readdir(dirname(room.content));
});
afterAll(() => room.close());

/** Files of the content that nobody may write by any of these: what is no recording, lesson or note of the class. */
const others = () =>
  Promise.all(['shop.yaml', 'media/pads.mp4'].map((file) => readFile(join(room.content, file), 'latin1')));

test('what our pages send stands here for each address that takes something', () => {
  const taking = ROUTES.filter(({ method, raw }) => method === 'POST' && !raw).map(({ path }) => path);
  expect(Object.keys(SENT).toSorted()).toEqual(taking.toSorted());
});

test.each(Object.keys(SENT))(
  'with the token of our own page, %s: whatever it is sent, the answer is a yes or a reasoned no, and nothing else is written',
  async (path) => {
    const before = await others();
    const answers: Record<number, number> = {};
    // Read as far as it goes: what our page sends is taken.
    expect(await room.own(`${ROOM}${path}`, SENT[path])).toMatchObject({ status: ANSWERED[path] ?? 200 });
    await fc.assert(
      fc.asyncProperty(changes, async (made) => {
        const body = made.reduce(changed, SENT[path]);
        const { status, text } = await room.own(`${ROOM}${path}`, body === undefined ? null : body);
        answers[status] = (answers[status] ?? 0) + 1;
        expect([status, text]).toSatisfy(([code]: [number]) => code >= 200 && code < 500);
        if (status >= 400) expect(JSON.parse(text)).toMatchObject({ problem: expect.stringMatching(/\w/) });
      }),
      { numRuns: RUNS, seed: 11 },
    );
    console.log(`${path}: ${RUNS} bodies, ${JSON.stringify(answers)}`);
    expect(await others()).toEqual(before);
    await writeFile(join(room.content, 'lessons/pads.mdx'), LESSON);
    await writeFile(join(room.content, 'recordings/pads.yaml'), RECORDING);
    await writeFile(join(room.content, 'classes/test.yaml'), CLASS);
    expect((await room.own(`${ROOM}api/open/?recording=pads`)).status).toBe(200);
  },
);

test('a file that is handed in goes under its own name into its own folder, or nowhere', async () => {
  const names = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.constantFrom(
      '../x.mp4',
      '..',
      '.mp4',
      'a/b.mp4',
      'a\\b.mp4',
      'x.mp4\u0000',
      '\u0000.mp4',
      'CON.mp4',
      'x'.repeat(300) + '.mp4',
    ),
    fc.constantFrom('take.mp4', 'Take 2.MOV', '%2e%2e%2fx.mp4', '..\u2215x.mp4', 'x.mp4/', './x.mp4', 'x.html'),
  );
  const ids = fc.oneof(fc.constantFrom('new', '..', '../..', '', '.liftside', 'new/..', 'NEW'), fc.string());
  const kept = await others();
  await fc.assert(
    fc.asyncProperty(ids, names, async (id, name) => {
      const query = new URLSearchParams({ id, name });
      const { status, text } = await room.ask(`${ROOM}api/footage/file/?${query}`, {
        method: 'POST',
        headers: {
          'x-liftside-token': TOKEN,
          origin: `http://127.0.0.1:${room.port}`,
          'content-type': 'application/octet-stream',
          'content-length': '4',
        },
        body: 'film',
      });
      expect([id, name, status, text]).toSatisfy(([, , code]: [string, string, number]) => code >= 200 && code < 500);
    }),
    { numRuns: RUNS * 2, seed: 13 },
  );
  expect(await others()).toEqual(kept);
  const folders = await readdir(join(room.content, 'media'), { withFileTypes: true });
  const made = folders.filter((entry) => entry.isDirectory()).map(({ name }) => name);
  expect(made).toContain('new');
  for (const folder of made) {
    expect(folder).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    for (const file of await readdir(join(room.content, 'media', folder))) expect(file).toMatch(/^[^./\\][^/\\]*$/);
  }
});

test('a name that is longer than a disk takes is refused in words', async () => {
  const long = 'x'.repeat(260);
  for (const [path, sent] of Object.entries(SENT)) {
    const body = JSON.parse(JSON.stringify(sent), (key, value) => (/^(class|id|recording)$/.test(key) ? long : value));
    expect([path, (await room.own(`${ROOM}${path}`, body)).status]).toSatisfy(
      ([, code]: [string, number]) => code < 500,
    );
  }
  for (const [id, name] of [
    ['new', `${long}.mp4`],
    [long, 'take.mp4'],
  ] as const) {
    const headers = { 'x-liftside-token': TOKEN, origin: `http://127.0.0.1:${room.port}` };
    const path = `${ROOM}api/footage/file/?${new URLSearchParams({ id, name })}`;
    expect((await room.ask(path, { method: 'POST', headers, body: 'film' })).status).toBe(403);
  }
});

test('questions in an address: whatever they ask for, no answer is a fault', async () => {
  await room.own(`${ROOM}api/open/?recording=pads`);
  const asked = ROUTES.filter(({ method, path }) => method === 'GET' && path !== 'api/events/');
  await writeFile(join(room.content, 'recordings/((.yaml'), RECORDING);
  await mkdir(join(room.content, '.liftside/analysis/pads'), { recursive: true });
  await writeFile(join(room.content, '.liftside/analysis/pads/analysis.json'), '{"torn');
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...asked),
      fc.constantFrom('recording', 'class', 'lesson', 'address', '__proto__'),
      fc.oneof(
        fc.string({ unit: 'grapheme' }),
        fc.constantFrom('pads', '((', '../..', 'test', '__proto__', '%', 'pads\u0000'),
      ),
      async ({ path, below }, name, value) => {
        const rest = below ? encodeURIComponent(value) : '';
        const query = new URLSearchParams({ [name]: value });
        const { status, text } = await room.own(`${ROOM}${path}${rest}?${query}`);
        expect([path, name, value, status, text.slice(0, 300)]).toSatisfy(([, , , code]) => code >= 200 && code < 500);
      },
    ),
    { numRuns: RUNS * 2, seed: 12 },
  );
  await rm(join(room.content, 'recordings/((.yaml'));
});

test('nothing was written beside the content folder', async () => {
  const now = await readdir(dirname(room.content));
  expect(now.filter((name) => name.startsWith('outside') && !outside.includes(name))).toEqual([]);
});
