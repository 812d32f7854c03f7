import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Api, type Change, Refused } from '../../../src/browser/cutting-room/api.ts';
import { Journal } from '../../../src/browser/cutting-room/journal.ts';
import { Saver } from '../../../src/browser/cutting-room/saver.ts';

const FILE = 'lessons/pads.mdx';
const BASE = 'one\ntwo\nthree\nfour\nfive\n';

/** A server that answers when the test says so. */
class FakeServer {
  readonly asked: Change[][] = [];
  #answers: { yes: () => void; no: (error: unknown) => void }[] = [];

  readonly api = {
    post: (path: string, { changes }: { changes: Change[] }) => {
      expect(path).toBe('save/');
      this.asked.push(changes);
      return new Promise<void>((yes, no) => this.#answers.push({ yes, no }));
    },
  } as unknown as Api;

  async yes(): Promise<void> {
    this.#answers.shift()?.yes();
    await settle();
  }

  async no(error: unknown): Promise<void> {
    this.#answers.shift()?.no(error);
    await settle();
  }
}

/** Lets promises run on; the clock stands. */
const settle = () => vi.advanceTimersByTimeAsync(0);

const texts = new Map<string, string>();
const taken: [file: string, base: string, theirs: string, merged: string][] = [];
let server: FakeServer;
let journal: Journal;
let saver: Saver;

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  journal = await Journal.open('pads');
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  vi.advanceTimersByTime(1);
  texts.clear();
  texts.set(FILE, BASE);
  taken.length = 0;
  server = new FakeServer();
  const takeIn = (file: string, base: string, theirs: string, merged: string) => {
    taken.push([file, base, theirs, merged]);
    texts.set(file, merged);
  };
  saver = new Saver(server.api, { texts: () => texts, takeIn }, new Map([[FILE, BASE]]), journal);
});
afterEach(() => void vi.useRealTimers());

const write = (text: string, file = FILE) => {
  texts.set(file, text);
  saver.noteChange();
};

test('a change is in the browser’s own store before the server has answered, and leaves it when it is written', async () => {
  write(`${BASE}six\n`);
  const change = { file: FILE, was: BASE, text: `${BASE}six\n` };
  expect(await journal.read()).toEqual([change]);
  expect(server.asked).toEqual([[change]]);
  expect(saver.state.value).toEqual({ kind: 'saving' });
  await server.yes();
  expect(saver.state.value).toEqual({ kind: 'saved' });
  expect(saver.onDisk(FILE)).toBe(`${BASE}six\n`);
  expect(await journal.read()).toEqual([]);
});

test('how long the last change took to reach the disk is measured from the first one that waited', async () => {
  write('a\n');
  vi.advanceTimersByTime(300);
  write('ab\n');
  await server.yes();
  vi.advanceTimersByTime(200);
  await server.yes();
  expect(saver.lastMs.value).toBe(500);
  write('abc\n');
  vi.advanceTimersByTime(40);
  await server.yes();
  expect(saver.lastMs.value).toBe(40);
});

test('what is typed while it saves is sent after, as one change over what was saved', async () => {
  write('a\n');
  write('ab\n');
  write('abc\n');
  expect(server.asked).toHaveLength(1);
  await server.yes();
  expect(server.asked.slice(1)).toEqual([[{ file: FILE, was: 'a\n', text: 'abc\n' }]]);
  expect(saver.state.value.kind).toBe('saving');
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
  expect(server.asked).toHaveLength(2);
});

test('typed and taken back again, nothing is sent', async () => {
  write(BASE);
  expect(server.asked).toEqual([]);
  expect(saver.state.value.kind).toBe('saved');
});

test('a server that is away is tried again after a second, and the work stays in the store', async () => {
  write('a\n');
  await server.no(new TypeError('fetch failed'));
  expect(saver.state.value).toEqual({ kind: 'waiting' });
  await vi.advanceTimersByTimeAsync(999);
  expect(server.asked).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(1);
  expect(server.asked).toHaveLength(2);
  expect(await journal.read()).toEqual([{ file: FILE, was: BASE, text: 'a\n' }]);
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
});

test('a disk that is full is told, and tried again after five seconds', async () => {
  write('a\n');
  await server.no(new Refused(507, 'lessons/pads.mdx could not be written: the disk is full', 'make room', {}));
  expect(saver.state.value).toEqual({
    kind: 'failed',
    problem: 'lessons/pads.mdx could not be written: the disk is full',
    help: 'make room',
  });
  await vi.advanceTimersByTimeAsync(4999);
  expect(server.asked).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(1);
  expect(server.asked).toHaveLength(2);
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
});

test('once saved otherwise, the retry of a failure sends nothing more', async () => {
  write('a\n');
  await server.no(new Refused(507, 'full', 'make room', {}));
  write('ab\n');
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
  await vi.advanceTimersByTimeAsync(20_000);
  expect(server.asked).toHaveLength(2);
});

test('what somebody else wrote elsewhere in the file is merged and sent over theirs', async () => {
  write(BASE.replace('one', 'ONE'));
  const theirs = BASE.replace('five', 'FIVE');
  await server.no(new Refused(409, 'changed', 'merge', { [FILE]: theirs }));
  const merged = BASE.replace('one', 'ONE').replace('five', 'FIVE');
  expect(taken).toEqual([[FILE, BASE, theirs, merged]]);
  expect(server.asked[1]).toEqual([{ file: FILE, was: theirs, text: merged }]);
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
});

test('where both changed one line nothing is sent until a person has settled it', async () => {
  write(BASE.replace('three', 'mine'));
  const theirs = BASE.replace('three', 'theirs');
  await server.no(new Refused(409, 'changed', 'merge', { [FILE]: theirs }));
  expect(saver.state.value).toMatchObject({ kind: 'clash', file: FILE, theirs });
  write(BASE.replace('three', 'mine again'));
  await vi.advanceTimersByTimeAsync(10_000);
  expect(server.asked).toHaveLength(1);
  // The work is in the store all the while.
  expect(await journal.read()).toEqual([{ file: FILE, was: BASE, text: BASE.replace('three', 'mine again') }]);
  const settled = BASE.replace('three', 'mine and theirs');
  saver.settleClash(FILE, theirs, settled);
  expect(server.asked[1]).toEqual([{ file: FILE, was: theirs, text: settled }]);
  await server.yes();
  expect(saver.state.value.kind).toBe('saved');
});

test('a file that is gone is written anew', async () => {
  write('a\n');
  await server.no(new Refused(409, 'gone', '', { [FILE]: null }));
  expect(server.asked[1]).toEqual([{ file: FILE, was: null, text: 'a\n' }]);
});

test('news of a file: its own echo and what is known are nothing, others’ work is taken in', async () => {
  write('mine\n');
  saver.noteForeignChange(FILE, 'mine\n');
  saver.noteForeignChange(FILE, BASE);
  saver.noteForeignChange(FILE, null);
  expect(taken).toEqual([]);
  // A file that was not there before is another's work, too.
  saver.noteForeignChange('lessons/other.mdx', 'x');
  expect(taken.splice(0)).toEqual([['lessons/other.mdx', '', 'x', 'x']]);
  await server.yes();
  saver.noteForeignChange(FILE, 'mine\nand theirs\n');
  expect(taken).toEqual([[FILE, 'mine\n', 'mine\nand theirs\n', 'mine\nand theirs\n']]);
  await settle();
  expect(server.asked).toHaveLength(1);
  expect([saver.state.value.kind, saver.onDisk(FILE)]).toEqual(['saved', 'mine\nand theirs\n']);
});

test('the late echo of an earlier save takes nothing back; who puts the old text back is heard all the same', async () => {
  write('first\n');
  await server.yes();
  write('second\n');
  await server.yes();
  // The server told of the first save before it wrote the second; the answer was quicker.
  saver.noteForeignChange(FILE, 'first\n');
  expect(taken).toEqual([]);
  saver.noteForeignChange(FILE, 'second\n');
  await vi.advanceTimersByTimeAsync(10_000);
  expect(taken).toEqual([]);
  saver.noteForeignChange(FILE, 'first\n');
  await vi.advanceTimersByTimeAsync(10_000);
  expect(taken).toEqual([[FILE, 'second\n', 'first\n', 'first\n']]);
  expect(saver.onDisk(FILE)).toBe('first\n');
});

test('what a page that died had kept is there for the next one, apart from other recordings', async () => {
  write('a\n');
  expect(await (await Journal.open('pads')).read()).toEqual([{ file: FILE, was: BASE, text: 'a\n' }]);
  expect(await (await Journal.open('chain')).read()).toEqual([]);
});

test('a store that holds nothing is not written again and again', async () => {
  const puts = vi.spyOn(IDBDatabase.prototype, 'transaction');
  journal.write([]);
  journal.write([]);
  expect(puts).toHaveBeenCalledTimes(1);
  journal.write([{ file: FILE, was: null, text: 'a' }]);
  journal.write([]);
  expect(puts).toHaveBeenCalledTimes(3);
  expect(puts.mock.calls.every(([, mode, options]) => mode === 'readwrite' && options?.durability === 'strict')).toBe(
    true,
  );
  puts.mockRestore();
});
