import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';
import { expect, onTestFinished, test, vi } from 'vitest';
import { guard } from '../../support/mutants/guard.ts';
import type { Seen } from '../../support/mutants/runner.ts';

/** A results file, a process that has told something last, and a clock that stands until it is put on. */
function watched(told: (pid: number) => Seen[], before: Seen[] = []) {
  const results = join(mkdtempSync(join(tmpdir(), 'guard-')), 'results.jsonl');
  const tell = (lines: Seen[]) => appendFileSync(results, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
  writeFileSync(results, '');
  tell(before);
  vi.useFakeTimers();
  const process = execa('node', ['-e', 'setInterval(() => {}, 1e9)'], { reject: false });
  const end = guard(results);
  onTestFinished(async () => {
    vi.useRealTimers();
    process.kill('SIGKILL');
    await process;
  });
  const pid = process.pid ?? 0;
  tell(told(pid));
  vi.advanceTimersByTime(1000);
  /** What was told last. */
  const last = (): Seen => JSON.parse(readFileSync(results, 'utf8').trimEnd().split('\n').at(-1) ?? '');
  return { pid, process, end, tell, last };
}

test('a process that says nothing while it tries a mutant is ended, and the mutant told as noticed', async () => {
  const { pid, process, end, last } = watched((pid) => [
    { id: '6', what: 'passed', pid },
    { id: '7', what: 'trying', withinMs: 60_000, pid },
  ]);
  vi.advanceTimersByTime(61_000);
  expect((await process).signal).toBe('SIGKILL');
  expect(end()).toEqual(['7']);
  expect(last()).toEqual({ id: '7', what: 'noticed', test: 'no end', pid });
});

test.each<[string, (pid: number) => Seen[], Seen[]]>([
  [
    'a process whose last mutant has a verdict may take its time',
    (pid) => [
      { id: '7', what: 'trying', withinMs: 60_000, pid },
      { id: '7', what: 'passed', pid },
    ],
    [],
  ],
  ['a test that runs as it is may take its time', () => [], []],
  [
    'what an earlier run told last ends nothing in this one',
    () => [],
    [{ id: '7', what: 'trying', withinMs: 10, pid: 1 }],
  ],
])('%s', (_, told, before) => {
  const { end } = watched(told, before);
  vi.advanceTimersByTime(100_000);
  expect(end()).toEqual([]);
});

test('the time begins anew with each mutant, and ends at what the process has allowed', async () => {
  const { pid, process, end, tell, last } = watched((pid) => [{ id: '7', what: 'trying', withinMs: 60_000, pid }]);
  vi.advanceTimersByTime(58_000);
  tell([{ id: '8', what: 'trying', withinMs: 60_000, pid }]);
  vi.advanceTimersByTime(59_000);
  expect(last()).toMatchObject({ id: '8', what: 'trying' });
  vi.advanceTimersByTime(3000);
  expect((await process).signal).toBe('SIGKILL');
  expect(end()).toEqual(['8']);
});
