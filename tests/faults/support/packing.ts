import { join } from 'node:path';
import { manifestText } from '../../../src/core/pack/index.ts';
import { type PackEntry, writeFolder, writeZip } from '../../../src/node/pack/index.ts';
import { HOME, script } from './run.ts';

/** Bytes that a package of {@link pack} has at least. */
export const PACKED = 3_000_000;

/**
 * Writes a package whose film says the word again and again.
 *
 * @param to folder, or zip file by its name
 */
export async function pack(to: string, content: string, word: string, wrote = (_bytes: number) => {}): Promise<void> {
  const entry = (path: string, text: string): PackEntry => ({
    ...{ path, bytes: Buffer.byteLength(text), from: { bytes: Buffer.from(text) } },
  });
  const manifest = manifestText({
    ...{ format: 'liftside-package', version: 1, kind: 'lesson', id: 'chain', title: word, shop: 'Millrace' },
    ...{ language: 'en', invented: true, opens: 'pages/index.html', lessons: ['chain'], films: [] },
  });
  const entries = [
    entry('READ ME FIRST.html', '<p>Open it.</p>'),
    entry('film/chain.mp4', word.repeat(PACKED / word.length)),
    entry('package.json', manifest),
    entry('pages/index.html', `<p>${word}</p>`),
    entry('source/words.yaml', ''),
  ];
  const write = to.endsWith('.zip') ? writeZip : writeFolder;
  await write(entries, { to, content, signal: new AbortController().signal, wrote });
}

/** The same in a process of its own, which ends as by kill -9 after so many bytes. */
export function packer(to: string, content: string, word: string, killAfter = Number.MAX_SAFE_INTEGER): string[] {
  return script(
    `import { pack } from ${JSON.stringify(join(HOME, 'tests/faults/support/packing.ts'))};
     const [to, content, word, killAfter] = process.argv.slice(-4);
     let sum = 0;
     await pack(to, content, word, (bytes) => {
       sum += bytes;
       if (sum < Number(killAfter)) return;
       process.kill(process.pid, 'SIGKILL');
       Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
     });`,
    to,
    content,
    word,
    String(killAfter),
  );
}
