import { expect, test } from 'vitest';
import { inWindows } from '../../../src/node/media/streamed-sound.ts';

test('numbers that lie across two parts are whole again', async () => {
  const numbers = Float32Array.from({ length: 70 }, (_, i) => i / 7);
  const bytes = new Uint8Array(numbers.buffer);
  for (const size of [1, 3, 7, 64, 1000]) {
    const parts = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
      bytes.subarray(i * size, (i + 1) * size),
    );
    const windows: Float32Array[] = [];
    for await (const window of inWindows(parts, 16)) windows.push(window);
    expect(windows.map(({ length }) => length)).toEqual([16, 16, 16, 16, 6]);
    expect(windows.flatMap((window) => [...window])).toEqual([...numbers]);
  }
});
