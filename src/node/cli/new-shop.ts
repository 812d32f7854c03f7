import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { saveTexts } from '../files/index.ts';
import { OutsideFailure } from './command.ts';
import { type KnownIds, STARTERS, type StarterKind } from './starters.ts';

/** The one of each kind that a new shop begins with; each is named by the others. */
const FIRST = { machine: 'first-machine', recording: 'first-recording', lesson: 'first-lesson', class: 'first-class' };

const SHOP = `# The shop itself.
name: FILL IN
# about: one or two sentences for the home page
timezone: FILL IN                   # of the IANA database, such as Europe/Vienna
language: en
units: [metric, us]                 # the two systems that are shown, the first one first
# site: address of the published site
# paper: A4 or Letter
`;

/** Footage is large and kept elsewhere; what Liftside works out is worked out again. */
const GITIGNORE = `.liftside/
dist/
media/*.mp4
media/*.mov
media/*.mkv
media/*.wav
`;

/**
 * Writes a whole content folder of starting files that know each other's ids, all of them or none.
 *
 * @param content absolute path: a new folder, or one that holds nothing but hidden files
 * @returns the files written, below the folder
 * @throws OutsideFailure when something is there already, or the disk refuses
 */
export async function newShop(content: string, cwd: string): Promise<readonly string[]> {
  const there = (await readdir(content).catch(() => [])).filter((name) => !name.startsWith('.'));
  if (there.length > 0)
    throw new OutsideFailure(
      `${relative(cwd, content) || '.'} holds ${there[0]} already, so no new shop is begun there`,
      'name a new folder, or begin single files with new lesson, new machine and so on',
      true,
    );
  await mkdir(content, { recursive: true });
  const known: KnownIds = FIRST;
  const kinds: readonly (readonly [StarterKind, string])[] = [
    ['kit', ''],
    ['words', ''],
    ['machine', FIRST.machine],
    ['recording', FIRST.recording],
    ['lesson', FIRST.lesson],
    ['class', FIRST.class],
  ];
  const texts = [
    { file: 'shop.yaml', text: SHOP },
    ...kinds.map(([kind, id]) => {
      const { folder, ending, file, text } = STARTERS[kind];
      return { file: file ?? `${folder}/${id}${ending}`, text: text(id, known) };
    }),
  ];
  const saved = await saveTexts(
    content,
    texts.map((each) => ({ ...each, was: undefined })),
  );
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help, saved.reason === 'changed');
  // One that is there already says what whoever wrote it wants.
  await writeFile(join(content, '.gitignore'), GITIGNORE, { flag: 'wx' }).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'EEXIST') throw error;
  });
  return [...texts.map(({ file }) => file), '.gitignore'];
}
