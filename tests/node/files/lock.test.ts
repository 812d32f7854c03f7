import { spawn } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { saveText } from '../../../src/node/files/index.ts';
import { Locked, withLock } from '../../../src/node/files/lock.ts';

const LOCK = resolve(import.meta.dirname, '../../../src/node/files/lock.ts');

let folder = '';
let file = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-lock-'));
  file = join(folder, 'lock');
});
afterEach(() => rm(folder, { recursive: true, force: true }));

/** Another process that holds the lock until it is killed. */
async function holder(more = '') {
  const script = `
    ${more}
    import { withLock } from ${JSON.stringify(LOCK)};
    await withLock(${JSON.stringify(file)}, { what: 'a long save' }, () => {
      process.stdout.write('held');
      return new Promise(() => setInterval(() => 0, 1000));
    });`;
  const node = spawn(process.execPath, ['--input-type=module', '-e', script], { stdio: ['ignore', 'pipe', 'inherit'] });
  const gone = new Promise((done) => node.once('exit', done));
  await new Promise((held) => node.stdout.once('data', held));
  return {
    pid: node.pid,
    kill: () => {
      node.kill('SIGKILL');
      return gone;
    },
  };
}

test('in one process, one piece of work comes after the other, and a failure lets the next one in', async () => {
  const order: string[] = [];
  const work = (name: string, fail = false) =>
    withLock(file, { what: name }, async () => {
      order.push(`${name} in`);
      await new Promise((done) => setTimeout(done, 5));
      order.push(`${name} out`);
      if (fail) throw new Error(name);
      return name;
    });
  const ended = await Promise.allSettled([work('a'), work('b', true), work('c')]);
  expect(ended.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  expect(order).toHaveLength(6);
  for (const i of [0, 2, 4]) expect(order[i + 1]).toBe(order[i]?.replace('in', 'out'));
  expect(await readdir(folder)).toEqual(['lock']);
});

test('another process that holds it is named; killed, it locks nobody out, whatever the clock says', async () => {
  // The other one believes it is the year 1970: a lock by age would call it abandoned.
  const other = await holder('Date.now = () => 0; Date.prototype.toISOString = () => "1970-01-01T00:00:00.000Z";');
  const refused = await withLock(file, { what: 'mine', patience: 50 }, async () => 'in').catch((error) => error);
  expect(refused).toBeInstanceOf(Locked);
  expect((refused as Error).message).toBe(
    `another Liftside is at work here: a long save, process ${other.pid}, since 00:00:00 UTC`,
  );
  const waiting = withLock(file, { what: 'mine', patience: 20_000 }, async () => 'in');
  await other.kill();
  expect(await waiting).toBe('in');
});

test('a passing lock leaves nothing, however many wait for it', async () => {
  let inside = 0;
  let most = 0;
  const work = () =>
    withLock(file, { what: 'x', passing: true }, async () => {
      most = Math.max(most, ++inside);
      await new Promise((done) => setTimeout(done, 1));
      inside--;
    });
  await Promise.all(Array.from({ length: 25 }, work));
  expect([most, inside]).toEqual([1, 0]);
  expect(await readdir(folder)).toEqual([]);
});

test('of many saves made at once from one reading, one wins and every other one is told', async () => {
  await writeFile(join(folder, 'a.yaml'), 'old');
  const saved = await Promise.all(
    Array.from({ length: 12 }, (_, n) => saveText(folder, { file: 'a.yaml', was: 'old', text: `new ${n}` })),
  );
  const winners = saved.flatMap((each, n) => (each.ok ? [n] : []));
  expect(winners).toHaveLength(1);
  for (const each of saved) if (!each.ok) expect(each).toMatchObject({ reason: 'changed', file: 'a.yaml' });
  expect(await readFile(join(folder, 'a.yaml'), 'utf8')).toBe(`new ${winners[0]}`);
});
