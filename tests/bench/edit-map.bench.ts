import { test } from 'vitest';
import type { Caption } from '../../src/core/model/index.ts';
import { retimeCaptions } from '../../src/core/programme/index.ts';
import {
  type EditList,
  editList,
  range,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
  toProgramme,
} from '../../src/core/time/index.ts';

/** What one would write first: from the start of the list for every moment. */
function naive(edit: EditList, moment: Ticks<'recording'>): number {
  let before = 0;
  for (const kept of edit) {
    if (moment < kept.start) return before;
    if (moment < kept.end) return before + moment - kept.start;
    before += kept.end - kept.start;
  }
  return before;
}

const second = (count: number) => ticks<'recording'>(count * TICKS_PER_SECOND);
const edit = editList(Array.from({ length: 1000 }, (_, i) => range(second(i * 10), second(i * 10 + 7))));
const cues = Array.from({ length: 10_000 }, (_, i) => second((i * 7919) % 10_000));
const point = { line: 1, column: 1, offset: 0 };
const captions = cues
  .toSorted((a, b) => a - b)
  .map(
    (start): Caption => ({
      at: range(start, ticks(start + TICKS_PER_SECOND)),
      markup: 'Mind the spring.',
      text: 'Mind the spring.',
      settings: '',
      place: { file: 'a.vtt', start: point, end: point },
    }),
  );

function each<T>(things: readonly T[], run: (thing: T) => unknown): void {
  for (const thing of things) run(thing);
}

test('ten thousand cues over a thousand kept ranges', async ({ bench }) => {
  await bench.compare(
    bench('toProgramme', () => each(cues, (cue) => toProgramme(edit, cue))),
    bench('from the start each time', () => each(cues, (cue) => naive(edit, cue))),
    { time: 500 },
  );
});

test('ten thousand captions retimed', async ({ bench }) => {
  await bench.compare(
    bench('retimeCaptions', () => void retimeCaptions(captions, edit)),
    bench('their starts from the start each time', () => each(captions, ({ at }) => naive(edit, at.start))),
    { time: 500 },
  );
});
