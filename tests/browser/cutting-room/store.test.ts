import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Api, Change, Opened } from '../../../src/browser/cutting-room/api.ts';
import { Journal } from '../../../src/browser/cutting-room/journal.ts';
import { Store } from '../../../src/browser/cutting-room/store.ts';
import { findCommand, printBindings } from '../../../src/core/edit/index.ts';
import { at, facts, LESSON, RECORDING } from '../../core/edit/support.ts';

const RECORDING_FILE = 'recordings/pads.yaml';
const LESSON_FILE = 'lessons/pads.mdx';
const OPENED: Opened = {
  recordingFile: RECORDING_FILE,
  lessonFiles: [LESSON_FILE],
  texts: { [RECORDING_FILE]: RECORDING, [LESSON_FILE]: LESSON },
  facts: { 'media/pads.mp4': facts()('media/pads.mp4') },
  machines: ['tarn-420'],
  today: '2026-11-27',
};

let posted: Change[][];
let kept: Map<string, string>;
let journal: Journal;
const api = {
  post: async (_path: string, { changes }: { changes: Change[] }) => void posted.push(changes),
} as unknown as Api;
const made = (unsaved: readonly Change[] = [], opened = OPENED) => new Store(api, opened, journal, unsaved);
const text = (store: Store, file = LESSON_FILE) => store.session.peek().content.texts.get(file) ?? '';
const settle = () => vi.advanceTimersByTimeAsync(0);
const command = (id: string) => {
  const run = findCommand(id)?.run;
  if (!run) throw new Error(`no command ${id}`);
  return run;
};

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  journal = await Journal.open('pads');
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  posted = [];
  kept = new Map();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test('a command that changes the text is saved; undone and done again, the bytes come back', async () => {
  const store = made();
  store.seek(at(20));
  expect(store.run(command('cue'))).toBe(true);
  const changed = text(store);
  expect(changed).not.toBe(LESSON);
  await settle();
  expect(posted).toEqual([[{ file: LESSON_FILE, was: LESSON, text: changed }]]);
  store.undo();
  expect(text(store)).toBe(LESSON);
  expect(store.said.value).toMatch(/^undone: /);
  store.redo();
  expect(text(store)).toBe(changed);
  expect(store.said.value).toMatch(/^redone: /);
  await settle();
  expect(store.saver.state.value.kind).toBe('saved');
});

test('with nothing to undo or do again it says so, and saves nothing', async () => {
  const store = made();
  store.undo();
  expect(store.said.value).toBe('there is nothing to undo');
  store.redo();
  expect(store.said.value).toBe('there is nothing to redo');
  await settle();
  expect(posted).toEqual([]);
});

test('a refused command changes nothing and says why', async () => {
  const store = made();
  expect(store.run(() => ({ refused: 'nothing is marked' }))).toBe(false);
  expect([store.said.value, text(store)]).toEqual(['nothing is marked', LESSON]);
  await settle();
  expect(posted).toEqual([]);
});

test('the playhead jumps when it is put somewhere, not when it stays', () => {
  const store = made();
  store.seek(at(30));
  expect([store.playhead.value, store.jumps.value]).toEqual([at(30), 1]);
  store.run((session) => ({ session }));
  expect(store.jumps.value).toBe(1);
  store.run((session) => ({ session: { ...session, playhead: at(31) } }));
  expect([store.playhead.value, store.jumps.value]).toEqual([at(31), 2]);
});

test('typing in a row is one step to undo', () => {
  const store = made();
  const before = text(store);
  store.run(command('choose-down'));
  for (const words of ['B', 'Be', 'Bes']) store.write(words);
  expect(text(store)).not.toBe(before);
  store.undo();
  expect(text(store)).toBe(before);
});

test('what an earlier page kept comes back over what is there now, and is saved', async () => {
  const mine = LESSON.replace('Both wheels straight.', 'Both wheels dead straight.');
  const theirs = LESSON.replace('Bring a clean rag.', 'Bring two clean rags.');
  const opened = { ...OPENED, texts: { ...OPENED.texts, [LESSON_FILE]: theirs } };
  const store = made([{ file: LESSON_FILE, was: LESSON, text: mine }], opened);
  const merged = mine.replace('Bring a clean rag.', 'Bring two clean rags.');
  expect(text(store)).toBe(merged);
  await settle();
  expect(posted).toEqual([[{ file: LESSON_FILE, was: theirs, text: merged }]]);
  store.undo();
  expect(text(store)).toBe(theirs);
});

test('where both changed one line, what the earlier page kept goes on the table', () => {
  const mine = LESSON.replace('Bring a clean rag.', 'Bring my rag.');
  const theirs = LESSON.replace('Bring a clean rag.', 'Bring their rag.');
  const opened = { ...OPENED, texts: { ...OPENED.texts, [LESSON_FILE]: theirs } };
  expect(text(made([{ file: LESSON_FILE, was: LESSON, text: mine }], opened))).toBe(mine);
});

test('a lesson that was only just started is on the table again', () => {
  const file = 'lessons/new.mdx';
  const opened = { ...OPENED, lessonFiles: [], texts: { [RECORDING_FILE]: RECORDING } };
  const store = made([{ file, was: null, text: LESSON }], opened);
  expect([store.desk.value.lessonFile, text(store, file)]).toEqual([file, LESSON]);
});

test('a lesson that is started stays: undoing goes back to its beginning', async () => {
  const store = made([], { ...OPENED, lessonFiles: [], texts: { [RECORDING_FILE]: RECORDING } });
  store.startLesson('new', LESSON);
  await settle();
  expect(posted).toEqual([[{ file: 'lessons/new.mdx', was: null, text: LESSON }]]);
  store.undo();
  expect([store.said.value, text(store, 'lessons/new.mdx')]).toEqual(['there is nothing to undo', LESSON]);
});

test('what somebody else wrote is taken in, also into the steps that can be undone', async () => {
  const store = made();
  store.seek(at(20));
  store.run(command('cue'));
  await settle();
  const theirs = text(store).replace('Bring a clean rag.', 'Bring two clean rags.');
  store.saver.noteForeignChange(LESSON_FILE, theirs);
  expect([text(store), store.lost.value]).toEqual([theirs, 0]);
  expect(store.said.value).toBe(`${LESSON_FILE} was changed by somebody else and taken in`);
  store.undo();
  expect(text(store)).toBe(LESSON.replace('Bring a clean rag.', 'Bring two clean rags.'));
});

test('keys that were changed are there for the next page', () => {
  const store = made();
  const bindings = new Map(store.bindings.value);
  store.setBindings(bindings as typeof store.bindings.value);
  expect([...kept.values()]).toEqual([printBindings(bindings as typeof store.bindings.value)]);
  expect(made().bindings.value).toEqual(store.bindings.value);
});

test('an answer to a proposal is there for the next page; undone it is not', () => {
  const first = made();
  const proposal = { id: 'a', range: { start: at(60), end: at(70) }, reason: 'nobody speaks' };
  first.patch({ suggestions: [proposal] });
  first.seek(at(60));
  first.run(command('refuse'));
  const next = made();
  next.patch({ suggestions: [proposal] });
  next.run(command('suggestion'));
  expect(next.said.value).toBe('no proposal is left');
  first.undo();
  const third = made();
  third.patch({ suggestions: [proposal] });
  expect(third.run(command('suggestion'))).toBe(true);
});

test('a file that appears is taken in, and what is known of footage too, without a change to save', async () => {
  const opened = { ...OPENED, facts: { 'media/pads.mp4': { state: 'missing' as const } } };
  const store = made([], opened);
  expect(store.view.value.length).toBe(0);
  store.takeInFacts(OPENED.facts);
  expect(store.view.value.length).toBe(at(1800));
  store.saver.noteForeignChange('kit.yaml', 'tools: {}\n');
  expect(text(store, 'kit.yaml')).toBe('tools: {}\n');
  // It stays when an earlier step is undone.
  store.seek(at(20));
  store.run(command('cue'));
  store.undo();
  expect(text(store, 'kit.yaml')).toBe('tools: {}\n');
  await settle();
  expect(posted.flat().some(({ file }) => file === 'kit.yaml')).toBe(false);
});
