import { join } from 'node:path';
import { HOME, script } from './run.ts';

/** Makes a folder of a few files that all say the word, in a process of its own; once, or over what is there. */
export function placer(target: string, content: string, word: string): string[] {
  return script(
    `import { mkdir, writeFile } from 'node:fs/promises';
     import { join } from 'node:path';
     import { placeFolder } from ${JSON.stringify(join(HOME, 'src/node/files/place-folder.ts'))};
     const [target, content, word] = process.argv.slice(-3);
     await placeFolder({ target, content, holds: 'a site', what: 'a build' }, async (next) => {
       await mkdir(join(next, 'pages'));
       await writeFile(join(next, 'index.html'), word.repeat(50_000));
       await writeFile(join(next, 'pages', word + '.html'), word);
     });`,
    target,
    content,
    word,
  );
}
