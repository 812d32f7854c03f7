import { setImmediate as turn } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import type { Lesson } from '../../../src/core/model/index.ts';
import { KeptReads } from '../../../src/core/read/index.ts';
import { NO_QUESTIONS } from '../../../src/core/read/recall.ts';
import { KeptChecks } from '../../../src/node/check/kept-reads.ts';
import { FileSums, ReadKeys } from '../../../src/node/files/index.ts';

test('of a thousand lessons a few models are held, and the others can be had by reading once more', async () => {
  const sums = FileSums.uncertain();
  const before = { files: [], reads: [], found: [], named: [], speech: [] };
  const checks = new KeptChecks(before, sums, new Map(), new KeptReads().again(), new ReadKeys(sums), undefined);
  const models: WeakRef<object>[] = [];
  const readNow = (id: string) => {
    const value = { id, title: `Lesson ${id}`, recording: 'r', machine: 'm', chapters: [], notes: [] };
    models.push(new WeakRef(value));
    return { value: value as unknown as Lesson, diagnostics: [], broken: [] };
  };
  const ids = Array.from({ length: 1000 }, (_, n) => `l-${n}`);
  const lessons = ids.map((id) =>
    checks.recalls.files<Lesson>(`lessons/${id}.mdx`, new Map(), NO_QUESTIONS, () => readNow(id)),
  );
  await turn();
  setFlagsFromString('--expose-gc');
  runInNewContext('gc')();
  expect(models.length).toBe(1000);
  expect(models.filter((model) => model.deref() !== undefined).length).toBeLessThanOrEqual(8);
  expect(lessons.map(({ value }) => value?.title)).toEqual(ids.map((id) => `Lesson ${id}`));
  expect(models.length).toBe(1000);
  // What is long is not kept beside them, and is read once more.
  expect(lessons[0]?.value?.chapters).toEqual([]);
  expect(models.length).toBe(1001);
});
