import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { STARTERS } from '../../../src/node/cli/starters.ts';
import { loadShop, placeFile } from '../../../src/node/files/index.ts';
import { writeEditorHelp } from '../../../src/node/site/editor-help.ts';
import { call } from '../../support/call.ts';
import { mayMount, mountSmallDisk, type SmallDisk } from '../../support/small-disk.ts';
import { contents, figures, inFolder } from '../support/run.ts';

/** The sound sample shop on a disk of its own. */
function onSmallDisk(work: (content: string, disk: SmallDisk) => Promise<void>): Promise<void> {
  return inFolder('full', async (folder) => {
    const disk = mountSmallDisk(folder, 512);
    try {
      for (const [file, text] of sampleContent(SOUND).texts) {
        await mkdir(join(folder, file, '..'), { recursive: true });
        await writeFile(join(folder, file), text);
      }
      await loadShop(folder);
      await work(folder, disk);
    } finally {
      disk.unmount();
    }
  });
}

const REFUSED = { full: /the disk is full/, 'read-only': /the disk is read-only/ } as const;

test.skipIf(!mayMount()).each(['full', 'read-only'] as const)(
  'on a disk that is %s, every writer says so and leaves what was there',
  async (how) => {
    let refused = 0;
    await onSmallDisk(async (content, disk) => {
      const { shop } = await loadShop(content);
      const before = await contents(content);
      if (how === 'full') await disk.fill();
      else disk.readOnly(true);
      for (const words of [
        ['new', 'lesson', 'brakes'],
        ['new', 'class', 'sunday'],
        ['export', 'saturday', '--to', 'ics', '-o', join(content, 'out.ics')],
        ['export', 'tarn-420', '--to', 'csv', '-o', join(content, 'out.csv')],
      ]) {
        const { code, said } = await call(words, { content });
        expect([words, code, said]).toEqual([words, 3, expect.stringMatching(REFUSED[how])]);
        refused++;
      }
      await expect(writeEditorHelp(content, { ...shop, lessons: [] })).rejects.toThrow(/ENOSPC|EROFS/);
      await expect(placeFile(join(content, 'shop.yaml'), 'x'.repeat(9000))).rejects.toThrow(/ENOSPC|EROFS/);
      refused += 2;
      // What can be made again may be left out; reading and checking go on.
      expect((await call(['check'], { content })).code).toBe(1);
      if (how === 'full') await disk.free();
      else disk.readOnly(false);
      const { '.liftside/lock': _lock, ...after } = await contents(content);
      expect(after).toEqual(before);
      expect((await call(['new', 'lesson', 'brakes'], { content })).code).toBe(0);
      expect(await readFile(join(content, 'lessons/brakes.mdx'), 'utf8')).toBe(
        STARTERS.lesson.text('brakes', { recording: 'chain', machine: 'tarn-420' }),
      );
      expect(await readdir(join(content, 'lessons'))).toEqual(['brakes.mdx', 'chain.mdx']);
    });
    figures(`a disk that is ${how}`, { writers: refused, 'half files': 0 });
  },
);
