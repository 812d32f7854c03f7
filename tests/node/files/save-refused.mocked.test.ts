import type * as fs from 'node:fs/promises';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { saveTexts } from '../../../src/node/files/save.ts';
import { mayMount, mountSmallDisk } from '../../support/small-disk.ts';

// What the file system says no to, whoever runs the tests: the nth call of that kind fails as the kernel lets it fail.
// Error numbers and when they come: POSIX.1-2024, open(), write(), fsync(), rename().
type Call = 'open' | 'write' | 'sync' | 'rename';
interface Fault {
  readonly call: Call;
  readonly code: string;
  nth: number;
  /** What fails after that. */
  readonly again?: Fault;
}
const fault = vi.hoisted((): { now?: Fault } => ({}));

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof fs>();
  const strike = (call: Call) => {
    if (fault.now?.call !== call || --fault.now.nth > 0) return;
    const { code, again } = fault.now;
    delete fault.now;
    if (again) fault.now = again;
    throw Object.assign(new Error(`${code}: ${call}`), { code });
  };
  return {
    ...real,
    open: async (...words: Parameters<typeof real.open>) => {
      if (words[1] === 'wx') strike('open');
      const handle = await real.open(...words);
      const write = handle.writeFile.bind(handle);
      const sync = handle.sync.bind(handle);
      handle.writeFile = async (data: Parameters<typeof write>[0]) => {
        // A disk that runs full has taken the first part.
        if (fault.now?.call === 'write') await write(String(data).slice(0, 2));
        strike('write');
        await write(data);
      };
      handle.sync = async () => {
        if (words[1] === 'wx') strike('sync');
        await sync();
      };
      return handle;
    },
    rename: async (...words: Parameters<typeof real.rename>) => {
      strike('rename');
      await real.rename(...words);
    },
  };
});

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-refused-'));
  await writeFile(join(folder, 'a.yaml'), 'old a\n');
  await writeFile(join(folder, 'b.mdx'), 'old b\n');
});
afterEach(async () => {
  delete fault.now;
  await rm(folder, { recursive: true, force: true });
});

const BOTH = [
  { file: 'a.yaml', was: 'old a\n', text: 'new a\n' },
  { file: 'b.mdx', was: 'old b\n', text: 'new b\n' },
];
const state = async () => ({
  a: await readFile(join(folder, 'a.yaml'), 'utf8'),
  b: await readFile(join(folder, 'b.mdx'), 'utf8'),
  names: (await readdir(folder)).filter((name) => name !== '.liftside').toSorted(),
  // A save that is over, well or not, leaves no journal.
  kept: (await readdir(join(folder, '.liftside')).catch(() => [])).filter((name) => /saving/.test(name)),
});
const OLD = { a: 'old a\n', b: 'old b\n', names: ['a.yaml', 'b.mdx'], kept: [] as string[] };

test.each([
  ['write', 'ENOSPC', 1, 'a.yaml could not be written: the disk is full'],
  ['write', 'ENOSPC', 2, 'b.mdx could not be written: the disk is full'],
  ['write', 'EDQUOT', 1, 'a.yaml could not be written: the disk is full for this user'],
  ['sync', 'ENOSPC', 1, 'a.yaml could not be written: the disk is full'],
  ['sync', 'EIO', 2, 'b.mdx could not be written: the disk does not answer as it should'],
  ['open', 'EROFS', 1, 'a.yaml could not be written: the disk is read-only'],
  ['open', 'EACCES', 2, 'b.mdx could not be written: this user may not write there'],
  // Of two files the journal comes third in writing, and first in taking its place.
  ['write', 'ENOSPC', 3, 'b.mdx could not be written: the disk is full'],
  ['sync', 'EIO', 3, 'b.mdx could not be written: the disk does not answer as it should'],
  ['rename', 'EROFS', 1, 'b.mdx could not be written: the disk is read-only'],
  ['rename', 'EROFS', 2, 'b.mdx could not be written: the disk is read-only'],
  ['rename', 'EIO', 3, 'b.mdx could not be written: the disk does not answer as it should'],
] as const)(
  'where %s says %s at number %d, both files are as they were and the reason is told',
  async (call, code, nth, problem) => {
    fault.now = { call, code, nth };
    expect(await saveTexts(folder, BOTH)).toMatchObject({ ok: false, problem });
    expect(fault.now).toBeUndefined();
    expect(await state()).toEqual(OLD);
    // Mended, the same change goes through.
    expect(await saveTexts(folder, BOTH)).toMatchObject({ ok: true });
    expect(await state()).toEqual({ ...OLD, a: 'new a\n', b: 'new b\n' });
  },
);

test('a new file that was placed before the next one failed is taken back', async () => {
  fault.now = { call: 'rename', code: 'EIO', nth: 3 };
  const changes = [{ file: 'c.mdx', was: undefined, text: 'new c\n' }, ...BOTH];
  expect((await saveTexts(folder, changes)).ok).toBe(false);
  expect(await state()).toEqual(OLD);
});

test('what cannot even be put back is named', async () => {
  fault.now = { call: 'rename', code: 'EIO', nth: 3, again: { call: 'open', code: 'EIO', nth: 1 } };
  expect(await saveTexts(folder, BOTH)).toMatchObject({
    ok: false,
    help: 'a.yaml was written before and could not be put back; look at it by hand',
  });
  expect(await state()).toEqual({ ...OLD, a: 'new a\n', kept: ['saving.json'] });
});

// The same on a file system that really is full, and really read-only.
test.skipIf(!mayMount())('a disk that is full or read-only leaves every file as it was', async () => {
  const disk = mountSmallDisk(folder);
  try {
    await writeFile(join(folder, 'a.yaml'), OLD.a);
    await writeFile(join(folder, 'b.mdx'), OLD.b);
    const long = BOTH.map((change) => ({ ...change, text: change.text.repeat(2000) }));
    await disk.fill();
    expect(await saveTexts(folder, long)).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/the disk is full$/),
    });
    expect(await state()).toEqual({ ...OLD, names: ['.filler', ...OLD.names] });
    await disk.free();
    disk.readOnly(true);
    expect(await saveTexts(folder, BOTH)).toMatchObject({
      ok: false,
      problem: 'a.yaml could not be written: the disk is read-only',
    });
    expect(await state()).toEqual(OLD);
    disk.readOnly(false);
    expect(await saveTexts(folder, BOTH)).toMatchObject({ ok: true });
  } finally {
    disk.unmount();
  }
});
