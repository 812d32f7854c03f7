import { resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Lesson, Passage, Recording, Shop } from '../../src/core/model/index.ts';
import { FRAME_RATES, frameAt, fromSeconds } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { SHOOTS } from '../footage/script/index.ts';
import { SAY_BRAKE } from '../footage/script/say-brake.ts';
import { SAY_CHAIN } from '../footage/script/say-chain.ts';
import { keptOf, shotsOf } from '../footage/script/timeline.ts';

const CONTENT = resolve('content');
let shop: Shop;
beforeAll(async () => {
  shop = (await loadShop(CONTENT)).shop;
});

describe.each(SHOOTS)('the shooting script of $id', (shoot) => {
  const shots = shotsOf(shoot);
  const lesson = (): Lesson => shop.lessons.find(({ id }) => id === shoot.id)!;
  const recording = (): Recording => shop.recordings.find(({ id }) => id === shoot.id)!;
  const frame = (
    moment: Passage['cue'] extends infer C | undefined ? (C extends { at: infer T } ? T : never) : never,
  ) => frameAt(moment, FRAME_RATES['29.97']);

  test('every chapter and step of the lesson begins and ends with its scene', () => {
    const passages = lesson().chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
    expect(passages.length).toBeGreaterThan(20);
    for (const { id, cue } of passages) {
      const own = shots.filter(({ scene }) => (scene.kind === 'step' || scene.kind === 'chapter') && scene.of === id);
      expect(own.length, id).toBeGreaterThan(0);
      expect(cue && frame(cue.at), id).toBe(own[0]?.startFrame);
      if (cue?.until !== undefined) expect(frame(cue.until), id).toBe(own.at(-1)?.endFrame);
    }
  });

  test('the edit list keeps the chapters and steps, and nothing else', () => {
    const kept = keptOf(shoot).map(({ start, end }) => ({
      start: fromSeconds(start / 10),
      end: fromSeconds(end / 10),
    }));
    expect(recording().edit).toEqual(kept);
  });
});

test('nobody says a value that does not come from the spec table', () => {
  // What is left when the values are taken out: a model year, and the grade of the fluid, which is a name.
  const said = [SAY_CHAIN, SAY_BRAKE]
    .flatMap((say) => Object.values(say).flat(2))
    .map((text) => text.replaceAll(/\{[^}]+\}|DOT 4|\b20\d\d\b/g, ''));
  expect(said.filter((text) => /\d|newton|metre|gram|litre|degree|inch/i.test(text))).toEqual([]);
});
