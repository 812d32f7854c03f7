import { readdir, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PictureCard } from '../../src/core/programme/index.ts';
import { toSeconds } from '../../src/core/time/index.ts';
import { cardPage, FIT, siteLook } from '../../src/node/media/card-page.ts';
import { openBrowser } from '../support/open-browser.ts';
import { decode, nearestFrame } from './compare.ts';
import { ffmpeg, testPicture, tone, workspace } from './make.ts';
import { render, shopWith } from './shop.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

const FPS = 25;
const RECORDING = `title: Take
files: [{file: media/a.mp4}]
cards: top-left
edit:
  - {in: "0:00:01", out: "0:00:25"}
  - {in: "0:00:30", out: "0:00:50"}
`;
const SPECS = `machine: {title: Test machine, years: 2020-2025, invented: true}
documents: {manual: {title: Manual, invented: true}}
specs:
  - {id: nut, title: Nut, kind: torque, nominal: 98, plusMinus: 5, unit: N·m, source: {document: manual, page: 1}}
`;
const LESSON = `---
title: Lesson
recording: take
machine: test-machine
---
## Chapter
<Cue at="0:00:01" />

### First
<Cue at="0:00:20" until="0:00:22" />
It takes <Spec of="nut" />.

### Second
<Cue at="0:00:32" until="0:00:48" />
Nothing to cite.
`;
const correction = (said: string) =>
  `corrections:\n  - {step: second, at: "0:00:36.2", spec: nut, said: ${JSON.stringify(said)}, on: 2026-01-02}\n`;
/** Signs that filters, subtitles and pages give a meaning, and scripts from both directions. */
const AWKWARD = `гайка “110” %{n} \\N {\\b1} 'x':[y];z, <b>&amp; 軸ナット ברגים 🔧`;

/** The same corner of every frame, small and grey. */
const CORNER = 'crop=iw/3:ih/12:iw*0.06:ih*0.06';

async function shop(name: string, recording = RECORDING): Promise<string> {
  return shopWith(folder.path(name), recording, {
    'specs/test-machine.yaml': SPECS,
    'lessons/lesson.mdx': LESSON,
    'corrections/lesson.yaml': correction(AWKWARD),
  });
}

test('cards lie over exactly their frames, the rest is as without them, and a changed correction encodes its own span', async () => {
  const content = await shop('burn');
  const source = `${content}/media/a.mp4`;
  const coding = ['-c:v', 'libx264', '-preset', 'veryfast', '-g', '25', '-c:a', 'aac'];
  await ffmpeg(...testPicture('854x480', String(FPS), 52), ...tone(300, 52), ...coding, source);
  const plain = await render(content, `${content}/plain.mp4`);
  const burnt = await render(content, `${content}/burnt.mp4`, { burn: true });

  const [was, corner, bare, covered] = await Promise.all([
    decode(source),
    decode(`${content}/plain.mp4`, [CORNER]),
    decode(`${content}/plain.mp4`),
    decode(`${content}/burnt.mp4`, [CORNER]),
  ]);
  expect(covered.small).toHaveLength(44 * FPS);
  // Programme seconds by the texts above: the start; 0:20 to 0:22 is 19 to 21; 0:36.2 to 0:48 is 30.2 to 42.
  const opening = burnt.cards[0];
  const ends = toSeconds(opening?.at.end ?? opening!.at.start);
  expect(ends).toBeGreaterThan(5);
  expect(ends).toBeLessThan(19);
  const spans = [
    [0, ends],
    [19, 21],
    [30.2, 42],
  ].map(([start = 0, end = 0]) => [Math.round(start * FPS), Math.round(end * FPS)] as const);
  const wrong: string[] = [];
  for (const [i, frame] of covered.small.entries()) {
    const off = frame.reduce((sum, value, p) => sum + Math.abs(value - corner.small[i]![p]!), 0) / frame.length;
    const expected = spans.some(([start, end]) => start <= i && i < end);
    if (off > 20 !== expected) wrong.push(`${i}: ${expected ? 'no card' : 'a card'} (${off.toFixed(1)})`);
  }
  expect(wrong).toEqual([]);

  // Below and beside the cards the right frames are seen, and what has no card is copied as without.
  const beside = 'crop=iw/2:ih:iw*0.4:0';
  const [wasBeside, isBeside] = await Promise.all([decode(source, [beside]), decode(`${content}/burnt.mp4`, [beside])]);
  for (const unit of burnt.done.units)
    for (let i = 0; i < unit.count; i++) {
      const [from, at] = [unit.first + i, unit.at + i];
      const found = nearestFrame(isBeside.small[at]!, wasBeside, from);
      if (found !== from) wrong.push(`${at} shows ${found} instead of ${from}`);
      if (unit.kind === 'copy' && covered.hashes[at] !== was.hashes[from]) wrong.push(`${at} is no copy`);
    }
  expect(wrong).toEqual([]);
  expect(bare.small).toHaveLength(covered.small.length);
  const copied = (units: typeof plain.done.units) => units.reduce((n, u) => n + (u.kind === 'copy' ? u.count : 0), 0);
  expect(copied(burnt.done.units)).toBeGreaterThan(0.3 * 44 * FPS);
  expect(copied(plain.done.units)).toBeGreaterThan(0.9 * 44 * FPS);

  const made = async () =>
    (await readdir(`${content}/.liftside/media`)).filter((name) => /^(draw|encode-pic)/.test(name));
  const before = await made();
  await writeFile(`${content}/corrections/lesson.yaml`, correction('one hundred and eleven'));
  const again = await render(content, `${content}/again.mp4`, { burn: true });
  const fresh = (await made()).filter((name) => !before.includes(name));
  const own = again.done.units.filter((unit) => unit.at >= spans[2]![0] && unit.at + unit.count <= spans[2]![1]);
  expect(fresh.filter((name) => name.startsWith('draw'))).toHaveLength(1);
  expect(fresh.filter((name) => name.startsWith('encode'))).toHaveLength(own.length);
});

test('on a turned camera the cards stand upright at the top of what is shown', async () => {
  const content = await shop('turned');
  await ffmpeg(...testPicture('480x270', String(FPS), 52), '-g', '25', `${content}/media/flat.mp4`);
  const turn = ['-c', 'copy', '-metadata:s:v', 'rotate=90'];
  await ffmpeg('-i', `${content}/media/flat.mp4`, ...turn, `${content}/media/a.mp4`);
  await render(content, `${content}/plain.mp4`);
  const { done } = await render(content, `${content}/burnt.mp4`, { burn: true });
  expect(done.units.some(({ kind }) => kind === 'copy')).toBe(true);
  const differs = async (crop: string) => {
    const [a, b] = await Promise.all(['plain', 'burnt'].map((name) => decode(`${content}/${name}.mp4`, [crop])));
    const [one, other] = [a!.small[50]!, b!.small[50]!];
    return one.reduce((sum, value, p) => sum + Math.abs(value - other[p]!), 0) / one.length;
  };
  expect(await differs(CORNER)).toBeGreaterThan(20);
  expect(await differs('crop=iw:ih/4:0:ih*3/4')).toBeLessThan(5);
});

test('a card lies where nothing moves, at most a third of the width, and goes away from hands that come there', async () => {
  const content = await shop('corners', RECORDING.replace('cards: top-left\n', ''));
  // Grey, with a box that shakes: at the top left until 0:31 of the recording, then at the top right.
  const box = (when: string, x: string) =>
    `drawbox=enable='${when}*lt(mod(t,1),0.5)':x=${x}:y=40:w=160:h=120:color=white:t=fill`;
  await ffmpeg(
    ...['-f', 'lavfi', '-i', `color=c=gray:s=854x480:r=${FPS}:d=52`],
    ...['-vf', `${box('lt(t,31)', '40')},${box('gte(t,31)', '650')}`, '-g', '25', `${content}/media/a.mp4`],
  );
  const { done } = await render(content, `${content}/burnt.mp4`, { burn: true });
  expect(done.units.some(({ kind }) => kind === 'encode')).toBe(true);
  const corners = { left: 'crop=iw/3:ih/4:iw*0.06:ih*0.06', right: 'crop=iw/3:ih/4:iw*0.94-iw/3:ih*0.06' };
  const covered = async (side: keyof typeof corners, seconds: number) => {
    const [plain, burnt] = await Promise.all([
      decode(`${content}/media/a.mp4`, [corners[side]]),
      decode(`${content}/burnt.mp4`, [corners[side]]),
    ]);
    // Programme seconds from 24 on are 5 later in the recording, before that 1.
    const [one, other] = [
      plain.small[Math.round((seconds + (seconds < 24 ? 1 : 6)) * FPS)]!,
      burnt.small[seconds * FPS]!,
    ];
    return one.reduce((sum, value, p) => sum + Math.abs(value - other[p]!), 0) / one.length > 20;
  };
  expect([await covered('left', 20), await covered('right', 20)]).toEqual([false, true]);
  expect([await covered('left', 35), await covered('right', 35)]).toEqual([true, false]);
  // A third of the width, from the right edge of the twentieth that screens may hide: nothing left of it.
  const middle = 'crop=iw*0.2:ih:iw*0.4:0';
  const [plain, burnt] = await Promise.all([
    decode(`${content}/media/a.mp4`, [middle]),
    decode(`${content}/burnt.mp4`, [middle]),
  ]);
  const off = burnt.small[20 * FPS]!.reduce((sum, value, p) => sum + Math.abs(value - plain.small[21 * FPS]![p]!), 0);
  expect(off / burnt.small[20 * FPS]!.length).toBeLessThan(5);
});

test('in a bottom corner nothing of a long card hangs out at the top, and no value is broken', async () => {
  const card: PictureCard = {
    ...{ kind: 'step', head: 'Tighten the nut', texts: [], caution: 'The service manual decides.' },
    signals: [{ word: 'warning', text: 'A nut that works loose lets the wheel go. '.repeat(6) }],
    values: [{ title: 'Nut', primary: '98 ± 5 N·m', secondary: '72.3 ± 3.6 lbf·ft', source: 'Manual, p. 1' }],
  };
  const browser = await openBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: 854, height: 480 } });
    await page.setContent(cardPage([card], { width: 854, height: 480 }, 'bottom-right'));
    await page.addStyleTag({ content: siteLook() });
    await page.evaluate('document.fonts.ready');
    expect(await page.evaluate(FIT)).toBe(true);
    const { x, y, width, height } = (await page.locator('section').boundingBox())!;
    expect(width).toBeLessThanOrEqual(854 / 3 + 0.1);
    expect(x + width).toBeCloseTo(854 * 0.95, 0);
    expect(y).toBeGreaterThanOrEqual(480 * 0.05 - 1);
    expect(y + height).toBeLessThanOrEqual(480 * 0.82 + 0.1);
    for (const value of ['.value', '.pair'])
      expect(await page.locator(value).evaluate((one) => one.getClientRects().length)).toBe(1);
  } finally {
    await browser.close();
  }
});
