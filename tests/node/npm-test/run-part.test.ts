import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { QuietWatch, runPart } from '../../support/run-part.ts';

describe('the watch for quiet', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test('calls when nothing was heard for so long, not before', () => {
    const quiet = vi.fn();
    new QuietWatch(1000, quiet);
    vi.advanceTimersByTime(999);
    expect(quiet).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    expect(quiet).toHaveBeenCalledOnce();
  });

  test('a part that goes on may take as long as it likes', () => {
    const quiet = vi.fn();
    const watch = new QuietWatch(1000, quiet);
    for (let n = 0; n < 100; n++) {
      vi.advanceTimersByTime(999);
      watch.heard();
    }
    expect(quiet).not.toHaveBeenCalled();
  });

  test('one that has ended is not called', () => {
    const quiet = vi.fn();
    new QuietWatch(1000, quiet).stop();
    vi.advanceTimersByTime(5000);
    expect(quiet).not.toHaveBeenCalled();
  });
});

const part = (script: string, quiet = 600_000) => ({ tool: process.execPath, args: ['-e', script], quiet });

test('a part says whether it ended well', async () => {
  expect(await runPart(part(''))).toEqual({ well: true, hung: false });
  expect(await runPart(part('process.exit(3)'))).toEqual({ well: false, hung: false });
});

test('a part that hangs is ended', async () => {
  expect(await runPart(part('setInterval(() => {}, 60_000)', 500))).toEqual({ well: false, hung: true });
});

test('a message, as one comes for each test that has ended, is a sign of life', async () => {
  const heard = vi.spyOn(QuietWatch.prototype, 'heard');
  await runPart(part("process.send('test ended')"));
  expect(heard).toHaveBeenCalledTimes(2);
  heard.mockClear();
  await runPart(part("process.stdout.write('.')"));
  expect(heard).toHaveBeenCalledTimes(2);
  heard.mockRestore();
});
