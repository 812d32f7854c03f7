import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { errorCode, loadShop, saveTexts } from '../files/index.ts';
import { writeEditorHelp } from '../site/editor-help.ts';
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

/** Language servers for MDX read it, and complete the elements of lessons and every id. */
const TSCONFIG = `{
  "compilerOptions": {"jsx": "preserve", "module": "preserve", "moduleResolution": "bundler", "noEmit": true, "types": []},
  "include": ["lessons", ".liftside/editor/ids.d.ts"],
  "mdx": {"checkMdx": true}
}
`;

/** A workflow as several code hosts run it: what is pushed is checked, and the site built. */
const WORKFLOW = `# Checks the content at each push and builds the site. Several code hosts run files of this form.
name: content
on: [push, pull_request]
jobs:
  site:
    runs-on: ubuntu-latest
    env:
      # The package that npm pack makes of Liftside: a file of this folder, or an address.
      LIFTSIDE: ./liftside.tgz
    steps:
      - uses: actions/checkout@v4
      - uses: actions/setup-node@v4
        with: {node-version: 24}
      - name: check
        run: npx --yes --package "$LIFTSIDE" liftside check --content . --sarif > check.sarif
      - name: build
        run: npx --yes --package "$LIFTSIDE" liftside build --content . --to site
      - uses: actions/upload-artifact@v4
        if: always()
        with:
          name: site
          path: |
            site
            check.sarif
`;

/** Files beside the content that help who keeps it: each is written only where there is none of its name. */
const BESIDE: readonly (readonly [file: string, text: string])[] = [
  ['.gitignore', GITIGNORE],
  ['tsconfig.json', TSCONFIG],
  ['.github/workflows/content.yml', WORKFLOW],
];

/** Which schema describes a kind of file: language servers for YAML read it from the first line. */
const SCHEMA_OF: Readonly<Record<StarterKind | 'shop', string | undefined>> = {
  shop: 'shop',
  kit: 'kit',
  words: 'words',
  machine: 'specs',
  recording: 'recording',
  class: 'class',
  lesson: undefined,
};

function withSchema(kind: StarterKind | 'shop', file: string, text: string): string {
  const schema = SCHEMA_OF[kind];
  const up = '../'.repeat(file.split('/').length - 1);
  return schema === undefined
    ? text
    : `# yaml-language-server: $schema=${up}.liftside/editor/${schema}.schema.json\n${text}`;
}

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
    { file: 'shop.yaml', text: withSchema('shop', 'shop.yaml', SHOP) },
    ...kinds.map(([kind, id]) => {
      const { folder, ending, file: only, text } = STARTERS[kind];
      const file = only ?? `${folder}/${id}${ending}`;
      return { file, text: withSchema(kind, file, text(id, known)) };
    }),
  ];
  const saved = await saveTexts(
    content,
    texts.map((each) => ({ ...each, was: undefined })),
  );
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help, saved.reason === 'changed');
  // Where the camera files go.
  await mkdir(join(content, 'media'), { recursive: true });
  const beside: string[] = [];
  for (const [file, text] of BESIDE) {
    await mkdir(dirname(join(content, file)), { recursive: true });
    try {
      await writeFile(join(content, file), text, { flag: 'wx' });
      beside.push(file);
    } catch (error) {
      // One that is there already says what whoever wrote it wants.
      if (errorCode(error) !== 'EEXIST') throw error;
    }
  }
  const { shop } = await loadShop(content);
  await writeEditorHelp(content, shop);
  return [...texts.map(({ file }) => file), ...beside];
}
