import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { sweep } from '../../../src/node/files/sweep.ts';

const SAVE = resolve(import.meta.dirname, '../../../src/node/files/save.ts');
// Long enough that a kill often comes in the middle of writing.
const LENGTH = 1_000_000;
const textOf = (letter: string) => letter.repeat(LENGTH);

const WRITER = `
import { saveText } from ${JSON.stringify(SAVE)};
const [folder] = process.argv.slice(-1);
let was = '-'.repeat(${LENGTH});
process.stdout.write('go');
for (let n = 0; ; n++) {
  const text = String.fromCharCode(97 + (n % 26)).repeat(${LENGTH});
  const saved = await saveText(folder, { file: 'lessons/long.mdx', was, text });
  if (!saved.ok) throw new Error(saved.problem);
  was = text;
}`;

/** ms after the writer has begun */
const DELAYS = [0, 3, 7, 12, 18, 25, 33, 60];

test('a writer killed at any moment leaves one whole text, and what lies beside it goes at the next start', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'liftside-killed-'));
  await mkdir(join(folder, 'lessons'));
  let halfWay = 0;
  // Kills between two saves say nothing: it goes on until some came in the middle of one.
  for (let kills = 0; kills < DELAYS.length || halfWay === 0; kills++) {
    const delay = DELAYS[kills % DELAYS.length];
    await writeFile(join(folder, 'lessons/long.mdx'), textOf('-'));
    const writer = spawn(process.execPath, ['--input-type=module', '-e', WRITER, folder]);
    await new Promise((going) => writer.stdout.once('data', going));
    await new Promise((done) => setTimeout(done, delay));
    const ended = new Promise((done) => writer.once('exit', done));
    writer.kill('SIGKILL');
    await ended;
    expect(writer.signalCode).toBe('SIGKILL');
    const text = await readFile(join(folder, 'lessons/long.mdx'), 'utf8');
    expect(text === textOf(text.charAt(0))).toBe(true);
    const names = await readdir(join(folder, 'lessons'));
    halfWay += names.length - 1;
    await sweep(folder);
    expect(await readdir(join(folder, 'lessons'))).toEqual(['long.mdx']);
  }
  await rm(folder, { recursive: true, force: true });
});
