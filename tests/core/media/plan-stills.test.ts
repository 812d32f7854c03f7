import { resolve } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { planStills, stillMoment } from '../../../src/core/media/index.ts';
import type { Shop } from '../../../src/core/model/index.ts';
import { lessonTimes } from '../../../src/core/programme/index.ts';
import { fromSeconds, ticks, toProgramme, toSeconds } from '../../../src/core/time/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';

let shop: Shop;
beforeAll(async () => {
  ({ shop } = await loadShop(resolve(import.meta.dirname, '../../../content')));
});

function demo(finished: boolean) {
  return shop.lessons.map((lesson) => {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    if (!recording) throw new Error(`${lesson.id} has no recording`);
    const times = lessonTimes(lesson, recording);
    const parts = times.chapters.flatMap(({ chapter, steps, ...at }) => [
      { id: chapter.id, ...at },
      ...steps.map(({ step, ...inner }) => ({ id: step.id, ...inner })),
    ]);
    return { recording, times, parts, plans: planStills(lesson, recording, finished) };
  });
}

test('each lesson, chapter and step on screen gets one picture, from a stretch of one camera file that is kept', () => {
  for (const { recording, parts, plans } of demo(false)) {
    expect(plans.map(({ part }) => part)).toEqual([undefined, ...parts.map(({ id }) => id)]);
    for (const { part, file = -1, from, to } of plans) {
      const span = recording.files[file]?.span;
      if (!span) throw new Error(`${part} is in no file`);
      const [start, end] = [from, to].map((seconds) => ticks<'recording'>(span.start + fromSeconds(seconds)));
      if (start === undefined || end === undefined) throw new Error('two edges');
      expect(end).toBeLessThanOrEqual(span.end);
      // Nothing of the stretch is cut: it is as long on both clocks.
      const [first, last] = [toProgramme(recording.edit, start), toProgramme(recording.edit, ticks(end - 1))];
      expect([part, first.cut, last.cut]).toEqual([part, undefined, undefined]);
      expect(last.at - first.at).toBe(end - 1 - start);
      const own = parts.find(({ id }) => id === part);
      if (own) expect([first.at, last.at < own.at.end]).toEqual([own.at.start, true]);
    }
  }
});

test('of a finished programme, the stretches are those of the programme', () => {
  for (const { times, parts, plans } of demo(true)) {
    const [whole, ...others] = plans;
    expect(whole).toMatchObject({ to: toSeconds(times.length) });
    expect(whole?.width).toBeGreaterThan(others[0]?.width ?? 0);
    expect(others.map(({ part, from, to }) => [part, from, to])).toEqual(
      parts.map(({ id, at }) => [id, toSeconds(at.start), toSeconds(at.end)]),
    );
  }
});

test('a picture is taken inside its stretch, when its beginning is over', () => {
  expect(stillMoment({ from: 30, to: 60 })).toBe(40);
});
