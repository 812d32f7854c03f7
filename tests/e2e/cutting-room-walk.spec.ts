import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { discard, roomContent, type Started, startRoom } from '../support/start-room.ts';
import { drawWalkFootage, type WalkFootage } from '../support/walk-footage.ts';

/** A cue lies this near to where its step begins, s. */
const NEAR = 2;
/** Half of what the same walk took before: 9 keys for the cuts, 6 for each of twelve steps, 250 letters of titles. */
const MOST_KEYS = (9 + 12 * 6) / 2;
const MOST_LETTERS = 125;

let card = '';
let content = '';
let room: Started;
let footage: WalkFootage;

// Before all: only where the walk is run, which takes minutes.
async function prepare(): Promise<void> {
  card = await mkdtemp(join(tmpdir(), 'liftside-walk-'));
  footage = await drawWalkFootage(card);
  content = await roomContent({});
  room = await startRoom(content);
}
test.afterAll(async () => {
  await room?.stop();
  if (content) await discard(content);
  if (card) await rm(card, { recursive: true, force: true });
});

test('from the card to a cued film without a terminal, with half of the keys and letters @long', async ({ page }) => {
  await prepare();
  const count = { keys: 0, letters: 0 };
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
    count.keys += keys.length;
  };
  /** A press of the mouse counts as a key. */
  const click = async (name: string) => {
    await page.getByRole('button', { name }).click();
    count.keys++;
  };
  const type = async (words: string) => {
    await page.keyboard.type(words);
    count.letters += words.length;
  };
  const { steps, cuts, length } = footage;
  expect(steps).toHaveLength(12);
  const began = Date.now();

  // The card: what was recorded, the files of all devices, one look.
  await page.goto(`${room.address}cutting-room/`);
  await page.getByLabel('What was recorded').focus();
  await type('Rear wheel');
  await page.getByLabel('Files').setInputFiles((await readdir(card)).map((name) => join(card, name)));
  count.keys++;
  await click('Copy them in');
  await click('Write the recording and open it');
  // The lesson is called what the recording is.
  await expect(page.locator('#new-title')).toBeFocused();
  await press('Enter');
  await expect(page.locator('.film-work .job', { hasText: 'done' })).toHaveCount(2, { timeout: 400_000 });
  const recording = await readFile(join(content, 'recordings/rear-wheel.yaml'), 'utf8');
  expect(recording.match(/cam-\d+/g)?.length).toBeGreaterThanOrEqual(3);
  expect(recording).toMatch(/file: \S*phone\.mp4, offset: "?0:01:(39|40)/);
  expect(recording).toMatch(/file: \S*voice\.wav, offset: "?0:00:(19|20)/);
  await expect(page.locator('.suggestions li').first()).toBeVisible();
  const sat = Date.now();

  // Proposals are answered in the order of the recording; what is none of ours is passed by.
  await press('Home', 'g');
  const isWanted = (row: Proposed) =>
    row.title === undefined
      ? cuts.some(({ start, end }) => row.at < end - 1 && row.at > start - 3)
      : steps.some(({ at }) => Math.abs(at - row.at) <= NEAR);
  for (let open = await proposals(page); open.some(isWanted); open = await proposals(page)) {
    expect(count.keys, JSON.stringify(open)).toBeLessThan(200);
    const at = await clockOf(page);
    const here = open.find((row) => Math.abs(row.at - at) < 0.05);
    if (!here || !isWanted(here)) await press('g');
    else {
      const wanted = here.title === undefined ? undefined : steps.find((one) => Math.abs(one.at - here.at) <= NEAR);
      await press('y');
      await expect(page.locator('.suggestions li')).toHaveCount(open.length - 1);
      // A title that does not say what is done is typed over.
      if (wanted && !here.title?.startsWith(wanted.title)) {
        await press('F2');
        await type(wanted.title);
        await press('Enter');
      }
    }
  }
  // What nothing was proposed for is set where it is seen, with the words that are said there.
  const lesson = () => readFile(join(content, 'lessons/rear-wheel.mdx'), 'utf8');
  await expect(page.locator('.save')).toHaveText('Saved');
  const known = stepsOf(await lesson());
  const missing = steps.filter(({ at }) => !known.some((one) => Math.abs(one.at - at) <= NEAR));
  for (const { title, at } of missing) {
    const strip = page.locator('.strip .over');
    const box = await strip.boundingBox();
    if (!box) throw new Error('no strip');
    await press('0');
    await page.mouse.click(box.x + 60, box.y + (at / length) * box.height);
    count.keys++;
    await press('a');
    await expect(page.locator('#asking-field')).toBeFocused();
    if (!(await page.locator('#asking-field').inputValue()).startsWith(title)) await type(title);
    await press('Enter');
  }
  await expect(page.locator('.save')).toHaveText('Saved');
  const done = Date.now();

  const written = stepsOf(await lesson());
  for (const { title, at } of steps) {
    const cued = written.find((one) => Math.abs(one.at - at) <= NEAR);
    expect(cued?.title, `${title} at ${at}, of ${JSON.stringify(written)}`).toMatch(new RegExp(`^${title}`));
  }
  expect(written).toHaveLength(12);
  const edit = await readFile(join(content, 'recordings/rear-wheel.yaml'), 'utf8');
  const kept = [...edit.matchAll(/in: "([^"]+)", out: "([^"]+)"/g)].map(([, from, to]) => [seconds(from), seconds(to)]);
  for (const { start, end } of cuts) {
    const left = kept.reduce(
      (sum, [from = 0, to = 0]) => sum + Math.max(0, Math.min(to, end) - Math.max(from, start)),
      0,
    );
    expect(left, `what is left of ${start} to ${end}`).toBeLessThan(3);
  }
  console.log(
    `walk: ${count.keys} keys of at most ${MOST_KEYS}, ${count.letters} letters of at most ${MOST_LETTERS}, ` +
      `${((done - sat) / 1000).toFixed(0)} s at the keys, ${((done - began) / 1000).toFixed(0)} s with copying and analysing; ` +
      `${cuts.length} cuts, ${steps.length} steps, ${missing.length} of them set by hand`,
  );
  expect(count.keys).toBeLessThanOrEqual(MOST_KEYS);
  expect(count.letters).toBeLessThanOrEqual(MOST_LETTERS);
});

interface Proposed {
  readonly at: number;
  /** Of a step; a cut has none. */
  readonly title?: string;
}

async function proposals(page: Page): Promise<Proposed[]> {
  const rows = await page.locator('.suggestions li').evaluateAll((all) =>
    all.map((row) => ({
      label: row.querySelector('.at')?.textContent ?? '',
      title: row.querySelector('b')?.textContent ?? undefined,
    })),
  );
  return rows.map(({ label, title }) => ({ at: seconds(label), ...(title ? { title } : {}) }));
}

async function clockOf(page: Page): Promise<number> {
  return seconds((await page.locator('.clocks dd').first().textContent()) ?? '');
}

function stepsOf(lesson: string): { title: string; at: number }[] {
  return [...lesson.matchAll(/^### (.*)\n+<Cue at="([^"]*)"/gm)].map(([, title = '', at]) => ({
    title,
    at: seconds(at),
  }));
}

/** A clock time, or a timecode of 25 frames a second. */
function seconds(label = ''): number {
  const parts = label.split(':').map(Number);
  const [frames = 0] = parts.length === 4 ? parts.splice(3) : [0];
  return parts.reduce((sum, part) => sum * 60 + part, 0) + frames / 25;
}
