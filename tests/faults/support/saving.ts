import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { loadShop } from '../../../src/node/files/index.ts';
import { HOME, script } from './run.ts';

export const FILES = ['recordings/a.yaml', 'lessons/b.mdx', 'specs/c.yaml'];
/** Long enough to be written in parts. */
const LONG = 200_000;
const textOf = (word: string, file: string) => `# ${word} ${file}\n${'#'.repeat(LONG)}\n`;

/** A content folder of three files. */
export async function threeFiles(folder: string): Promise<void> {
  for (const file of FILES) {
    await mkdir(join(folder, file, '..'), { recursive: true });
    await writeFile(join(folder, file), textOf('old', file));
  }
}

/** Saves all three at once, in a process of its own. */
export function saver(folder: string, word = 'new'): string[] {
  return script(
    `import { saveTexts } from ${JSON.stringify(join(HOME, 'src/node/files/save.ts'))};
     const [folder, word] = process.argv.slice(-2);
     const text = (word, file) => '# ' + word + ' ' + file + '\\n' + '#'.repeat(${LONG}) + '\\n';
     const changes = ${JSON.stringify(FILES)}.map((file) => ({ file, was: text('old', file), text: text(word, file) }));
     const saved = await saveTexts(folder, changes);
     process.stdout.write(saved.ok ? 'saved' : saved.reason);`,
    folder,
    word,
  );
}

/** The word that all three files say after the next reading of the folder. @throws where they do not say the same, or not all */
export async function saidByAll(folder: string): Promise<string> {
  await loadShop(folder);
  const texts = await Promise.all(FILES.map((file) => readFile(join(folder, file), 'utf8')));
  const words = texts.map((text) => /^# (\w+) /.exec(text)?.[1] ?? '');
  const [word = ''] = words;
  if (texts.some((text, i) => text !== textOf(word, FILES[i] ?? ''))) throw new Error(`torn: ${words.join(', ')}`);
  return word;
}
