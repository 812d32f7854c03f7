import { describe, expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { planImport } from '../../../src/core/interchange/index.ts';
import { readEdl } from '../../../src/core/interchange/read-edl.ts';
import { spans } from '../../support/edit.ts';
import { changedFile, done, smallShop } from '../../support/shop.ts';

// One camera file of ten minutes at 25 frames a second: 15 000 frames.
const RATE_25 = changedFile('recordings/chain.yaml', 'rate: "29.97"', 'rate: "25"');
const { recording, shop } = smallShop(RATE_25);
const texts = new Map(Object.entries({ ...SOUND_SHOP, ...RATE_25 }));
const event = (start: string, end: string, from = '01:00:00:00', to = '') => {
  const frames = (label: string) => {
    const [h = 0, m = 0, s = 0, f = 0] = label.split(':').map(Number);
    return ((h * 60 + m) * 60 + s) * 25 + f;
  };
  const label = (n: number) =>
    [n / 90_000, (n / 1500) % 60, (n / 25) % 60, n % 25]
      .map((part) => String(Math.floor(part)).padStart(2, '0'))
      .join(':');
  return `001 CHAIN V C ${start} ${end} ${from} ${to || label(frames(from) + frames(end) - frames(start))}`;
};
const read = (...lines: string[]) => {
  const { edit = [], notes } = done(readEdl(`TITLE: x\nFCM: NON-DROP FRAME\n${lines.join('\n')}\n`, recording));
  return [spans(edit), notes] as const;
};

describe('the end of a camera file', () => {
  test('a range that ends with the file is whole', () =>
    expect(read(event('00:09:50:00', '00:10:00:00'))).toEqual(['590-600', []]));

  test('one that ends a frame later is held to it, and that is told', () => {
    const [kept, notes] = read(event('00:09:50:00', '00:10:00:01'));
    expect(kept).toBe('590-600');
    expect(notes).toEqual([expect.stringContaining('reaches past media/chain.mp4 and was held to it')]);
  });

  test('one that begins with the last frame is kept, one that begins after it is left out', () => {
    expect(read(event('00:09:59:24', '00:10:00:00'))).toEqual(['599.96-600', []]);
    expect(read(event('00:10:00:00', '00:10:01:00'))).toEqual([
      '',
      [expect.stringContaining('asks for nothing that is in media/chain.mp4, so it was left out')],
    ]);
  });

  test('a last frame that the file does not fill counts as one of it', () => {
    const longer = { ...recording, files: recording.files.map((file) => ({ ...file })) };
    const [file] = longer.files;
    if (!file) throw new Error('no camera file');
    file.span = { ...file.span, end: (file.span.end + 1) as typeof file.span.end };
    const { edit = [], notes } = done(
      readEdl(`TITLE: x\nFCM: NON-DROP FRAME\n${event('00:09:50:00', '00:10:00:01')}\n`, longer),
    );
    expect([spans(edit), notes]).toEqual(['590-600.04', []]);
  });
});

describe('events at the edge of what can be carried', () => {
  test('one frame long, none long, and ending before it starts', () => {
    expect(read(event('00:00:10:00', '00:00:10:01'))).toEqual(['10-10.04', []]);
    expect(read(event('00:00:10:00', '00:00:10:00'))).toEqual(['', []]);
    expect(read(event('00:00:10:01', '00:00:10:00', '01:00:00:01', '01:00:00:00'))).toEqual([
      '',
      ['event 001 ends before it starts, so it was left out'],
    ]);
  });

  test('inclusive last frames are told when three events show them, not when one gap differs', () => {
    const at = (n: number, from: string, to: string) => `00${n} CHAIN V C 00:00:${n}0:00 00:00:${n}0:24 ${from} ${to}`;
    const [, told] = read(
      at(1, '01:00:00:00', '01:00:00:24'),
      at(2, '01:00:01:00', '01:00:01:24'),
      at(3, '01:00:02:00', '01:00:02:24'),
    );
    expect(told).toEqual([expect.stringContaining('seems to name last frames')]);
    const [, silent] = read(
      at(1, '01:00:00:00', '01:00:00:24'),
      at(2, '01:00:01:00', '01:00:01:24'),
      at(3, '01:00:01:24', '01:00:02:23'),
    );
    expect(silent).toEqual([]);
  });
});

test('a point that is less than a frame from one that is there keeps it as it is written; a frame away it is another', () => {
  // The shop keeps 0:00:10 to 0:05:00 and 0:06:00 to 0:09:00.
  const planned = (...lines: string[]) => {
    const imported = done(readEdl(`TITLE: x\nFCM: NON-DROP FRAME\n${lines.join('\n')}\n`, recording));
    return done(planImport(imported, recording, shop, texts))
      .texts.map(({ text }) => text)
      .join('');
  };
  expect(planned(event('00:00:10:00', '00:05:00:00'), event('00:06:00:00', '00:09:00:00', '01:04:50:00'))).toBe('');
  expect(planned(event('00:00:10:01', '00:05:00:00'), event('00:06:00:00', '00:09:00:00', '01:04:50:00'))).toContain(
    'in: "0:00:10.04"',
  );
});
