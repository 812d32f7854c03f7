import { expect, test } from 'vitest';
import { bothMemories } from '../../../src/browser/present/day-memory.ts';
import { memoryBeside, storeShelf } from '../../../src/browser/present/day-shelf.ts';
import { PackedDay } from '../../../src/browser/present/packed-day.ts';
import { sheetHere } from '../../../src/browser/present/packed-desk.ts';
import type { DayEvent } from '../../../src/core/day/index.ts';
import { BEGIN, events, NEXT, sheetOf, talk } from '../../core/day/support.ts';

const sheet = sheetOf([
  talk('a', [{ id: 'full', worth: 10, minutes: 5 }]),
  talk('b', [{ id: 'full', worth: 10, minutes: 5 }]),
]);
const START = sheet.startsAt;
const MINUTE = 60_000;
const [begin, next] = events([0, BEGIN], [6, NEXT]) as [DayEvent, DayEvent];

/** A browser: its store outlives pages, each of which counts its own seconds. */
function browser() {
  const texts = new Map<string, string>();
  const store = {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, value: string) => void texts.set(key, value),
  };
  let pages = 0;
  return {
    texts,
    store,
    page(wall: number, name = 'pack') {
      const clock = { run: `page ${++pages}`, steady: 0, wall };
      return { clock, day: new PackedDay(sheet, storeShelf(store), name, () => ({ ...clock })) };
    },
  };
}

test('what happened outlives the page, and its clock goes on by the time of day', async () => {
  const { page } = browser();
  const first = page(START);
  await first.day.send([begin]);
  first.clock.steady = 360;
  await first.day.send([next]);
  const again = page(START + 10 * MINUTE);
  const { events: known, at } = await again.day.open();
  expect(known.map(({ id }) => id)).toEqual(['e0', 'e1']);
  // The wall clock stood still on the first page, so that all of the ten minutes are new to the second.
  expect(at).toBe(360 + 600);
});

test('a clock that is set while the page is open moves nothing, not even after a reload', async () => {
  const { page } = browser();
  const first = page(START);
  await first.day.send([begin]);
  Object.assign(first.clock, { steady: 60, wall: START + 61 * MINUTE });
  expect(await first.day.time()).toBe(60);
  const again = page(START + 61 * MINUTE + 5000);
  expect((await again.day.open()).at).toBe(65);
});

test('a clock that runs ahead moves the class only where somebody says that the machine slept', async () => {
  const { page } = browser();
  const { clock, day } = page(START);
  await day.send([begin]);
  await day.time();
  Object.assign(clock, { steady: 10, wall: START + 10_000 + 59_000 });
  await day.time();
  expect(day.gap.value).toBe(0);
  Object.assign(clock, { steady: 20, wall: START + 79_000 + 25 * MINUTE });
  expect([await day.time(), day.gap.value]).toEqual([20, 1500]);
  expect([await day.time(), day.gap.value]).toEqual([20, 1500]);
  await day.countGap();
  expect([await day.time(), day.gap.value]).toEqual([1520, 0]);
  Object.assign(clock, { steady: 30, wall: START + 3 * 60 * MINUTE });
  await day.time();
  expect(day.gap.value).toBeGreaterThan(0);
  day.leaveGap();
  expect([await day.time(), day.gap.value]).toEqual([1530, 0]);
});

test('two windows of one class lose nothing of each other, and an event counts once', async () => {
  const { page } = browser();
  const [one, two] = [page(START), page(START)];
  await one.day.send([begin]);
  await two.day.send([next]);
  await one.day.send([begin, next]);
  expect((await one.day.open()).events.map(({ id }) => id)).toEqual(['e0', 'e1']);
});

test('another package in the same browser has a class of its own', async () => {
  const { page } = browser();
  await page(START).day.send([begin]);
  expect((await page(START, 'pack of others').day.open()).events).toEqual([]);
});

test('begun anew, or on another Saturday, what was there is laid aside and can still be saved', async () => {
  const { page } = browser();
  const first = page(START);
  await first.day.send([begin, next]);
  expect((await first.day.files()).map(({ file }) => file)).toEqual(['classes/test.actual.yaml']);
  await first.day.afresh();
  expect((await first.day.open()).events).toEqual([]);
  expect(await first.day.files()).toEqual([]);
  expect((await first.day.aside()).map(({ files }) => files.length)).toEqual([1]);

  await first.day.send([begin, next]);
  const nextWeek = page(START + 7 * 24 * 60 * MINUTE);
  expect((await nextWeek.day.open()).events).toEqual([]);
  expect(await nextWeek.day.aside()).toHaveLength(2);
  await nextWeek.day.send([begin]);
  expect((await nextWeek.day.open()).events).toHaveLength(1);
  expect(await nextWeek.day.aside()).toHaveLength(2);
});

test('what is not on the shelf yet is remembered in the same moment, by package, until it is', async () => {
  const { texts, store } = browser();
  const memory = memoryBeside('pack', store);
  memory.keep(begin);
  memory.keep(next);
  memory.forget([begin]);
  expect(await memoryBeside('pack', store).unsent()).toEqual([next]);
  expect(await memoryBeside('pack of others', store).unsent()).toEqual([]);
  for (const item of texts.keys()) texts.set(item, '[{"kind": "explode"}]');
  expect(await memory.unsent()).toEqual([]);
  expect(await memoryBeside('pack', undefined).unsent()).toEqual([]);
});

test('of two memories each event comes back once, in the order in which it happened', async () => {
  const { store } = browser();
  const [one, other] = [memoryBeside('one', store), memoryBeside('other', store)];
  const both = bothMemories(one, other);
  other.keep(next);
  both.keep(begin);
  expect(await both.unsent()).toEqual([begin, next]);
  both.forget([begin, next]);
  expect(await both.unsent()).toEqual([]);
});

test('what is no log, and a browser that keeps nothing, do not stop a class', async () => {
  const { page, texts } = browser();
  texts.set('packed-days', '{"pack": {"events": [{"kind": "explode"}]}}');
  expect((await page(START).day.open()).events).toEqual([]);
  texts.set('packed-days', 'no JSON');
  expect((await page(START).day.open()).events).toEqual([]);
  const alone = new PackedDay(sheet, storeShelf(undefined), 'pack', () => ({ run: 'a', steady: 0, wall: START }));
  await alone.send([begin]);
  expect([alone.lasting, (await alone.open()).events.length]).toEqual([false, 1]);
});

test('films have whole addresses, since the room’s page lies elsewhere; the start is that of the shop where it names a zone', () => {
  const plan = { files: [{ url: '../../film/a%20b.mp4', recording: [0, 1] as const }], kept: [] };
  const film = { id: 'chain', length: 1, title: 'Chain', plan, chapters: [], steps: [] };
  const desk = { class: 'test', keep: 'pack', room: 'room/index.html', sheet: { ...sheet, films: { chain: film } } };
  const here = sheetHere({ ...desk, zoned: true }, 'file:///stick/pages/present/index.html');
  expect(here.films.chain?.plan.files[0]?.url).toBe('file:///stick/film/a%20b.mp4');
  expect(here.startsAt).toBe(START);
  const { startsAt } = sheetHere({ ...desk, zoned: false }, 'file:///stick/pages/present/index.html');
  expect(startsAt).toBe(new Date(2027, 2, 6, 10).getTime());
});
