// npx node tests/bench/cutting-session.ts [--speed 2] [--lesson chain]
// A person sets every cue of a demo lesson in one viewing, by keyboard. Prints keys and seconds.
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { parseMoment, TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { openBrowser } from '../support/open-browser.ts';
import { copyDemo, discard, startRoom } from '../support/start-room.ts';

const { values } = parseArgs({
  options: { speed: { type: 'string', default: '2' }, lesson: { type: 'string', default: 'chain' } },
});
/** Presses of L until the shuttle runs this fast. */
const PRESSES: Readonly<Record<string, number>> = { '1': 1, '1.5': 2, '2': 3, '4': 4, '8': 5, '16': 6 };
/** A hand follows the eye after so long (common practice, no source). */
const REACTION_MS = 250;

const content = await copyDemo();
const file = join(content, 'lessons', `${values.lesson}.mdx`);
// The demo's chain lesson has 29 chapters and steps. "Card, date, distance, and two names" is a step of its own here.
if (values.lesson === 'chain') {
  const end = '\n### Write the card\n<Cue at="1:04:41.7" />\nDate, distance and the names of the two who checked.\n';
  await writeFile(file, (await readFile(file, 'utf8')).trimEnd() + '\n' + end);
}
const { shop } = await loadShop(content);
const lesson = shop.lessons.find(({ id }) => id === values.lesson);
const recording = shop.recordings.find(({ id }) => id === lesson?.recording);
if (!lesson || !recording) throw new Error(`no lesson ${values.lesson} with its recording`);
const right = lesson.chapters
  .flatMap((chapter) => [chapter, ...chapter.steps])
  .flatMap(({ cue }) => (cue ? [cue.at] : []));
await writeFile(file, (await readFile(file, 'utf8')).replaceAll(/^<Cue [^>]*\/>\n/gm, ''));

const room = await startRoom(content);
const browser = await openBrowser();
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
await page.goto(`${room.address}cutting-room/${recording.id}/`);
await page.locator('.entry').first().waitFor({ timeout: 120_000 });
let control = 0;
let other = 0;
const press = async (key: string) => {
  if (['j', 'k', 'l', 'p', 'Space'].includes(key)) control++;
  else other++;
  await page.keyboard.press(key);
};
const shown = async () => {
  const at = parseMoment((await page.locator('.clocks dd').first().textContent()) ?? '', recording);
  return at.ok ? at.value : 0;
};
const began = performance.now();
await press('p');
for (let n = 0; n < (PRESSES[values.speed] ?? 3); n++) await press('l');
let before = -1;
for (const at of right) {
  while ((await shown()) < at) await page.waitForTimeout(20);
  // Two things at one moment, such as a chapter and its first step, are two presses of one reaction.
  if (at - before > TICKS_PER_SECOND) await page.waitForTimeout(REACTION_MS);
  before = at;
  await press('m');
}
await press('k');
const seconds = (performance.now() - began) / 1000;
await page.locator('.save.saved').waitFor();
const after = (await loadShop(content)).shop.lessons.find(({ id }) => id === values.lesson);
const set = (after?.chapters ?? [])
  .flatMap((chapter) => [chapter, ...chapter.steps])
  .flatMap(({ cue }) => (cue ? [cue.at] : []));
const late = set.map((at, i) => (at - (right[i] ?? at)) / TICKS_PER_SECOND).toSorted((a, b) => a - b);
const programme = recording.edit.reduce((sum, kept) => sum + kept.end - kept.start, 0) / TICKS_PER_SECOND;
const told = {
  lesson: values.lesson,
  speed: Number(values.speed),
  cuesSet: set.length,
  cuesWanted: right.length,
  keysForCues: other,
  keysForPlaying: control,
  seconds: Math.round(seconds),
  programmeSeconds: Math.round(programme),
  latenessSeconds: { median: late[Math.floor(late.length / 2)], worst: late.at(-1) },
};
console.log(JSON.stringify(told, null, 2));
await browser.close();
await room.stop();
await discard(content);
