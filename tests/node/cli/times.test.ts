import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

// Kept are 0:10-5:00 and 6:00-9:00 of the recording: 290 s and 180 s.
test('times are those of the programme, and a step is as long as what remains of it', async () => {
  const { code, out } = await call(['times', 'chain', '--json'], { content: shopFolder() });
  expect(code).toBe(0);
  const chapter = { id: 'rear-wheel', title: 'Rear wheel', start: 10, end: 470, recording: { start: 20, end: 540 } };
  expect(JSON.parse(out)).toEqual({
    lesson: 'chain',
    recordingSeconds: null,
    programmeSeconds: 470,
    chapters: [
      {
        ...chapter,
        steps: [
          { id: 'crack-the-nut', title: 'Crack the nut', start: 20, end: 110 },
          { id: 'tighten-the-nut', title: 'Tighten the nut', start: 300, end: 470 },
        ],
      },
    ],
  });
});

test('a mistyped lesson is a wrong call, and the nearest is named', async () => {
  const { code, said } = await call(['times', 'chian'], { content: shopFolder() });
  expect([code, said]).toEqual([2, 'no lesson "chian": the nearest is "chain"']);
});
