import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { slug } from '../../core/read/index.ts';
import { command, EXIT, OutsideFailure } from './command.ts';
import { STARTERS, type StarterKind } from './starters.ts';

const KINDS = Object.keys(STARTERS).filter((kind): kind is StarterKind => kind in STARTERS);

export default command({
  name: 'new',
  summary: 'a commented starting file for a lesson, recording, class or machine',
  args: ['<kind>', '<id>'],
  options: [],

  async run([kind = '', id = ''], _, { content, cwd, out, say }) {
    const known = KINDS.find((k) => k === kind);
    if (!known) {
      say(`"${kind}" is nothing that can be started; say one of ${KINDS.join(', ')}`);
      return EXIT.callIsWrong;
    }
    if (slug(id) !== id) {
      say(`"${id}" cannot be an id: it is small letters, digits and single hyphens, such as "${slug(id)}"`);
      return EXIT.callIsWrong;
    }
    const { folder, ending, text } = STARTERS[known];
    const path = join(content, folder, `${id}${ending}`);
    await mkdir(dirname(path), { recursive: true });
    try {
      // 'wx' never writes over a file that is there.
      await writeFile(path, text(id), { flag: 'wx' });
    } catch (error) {
      if (error instanceof Error && 'code' in error && error.code === 'EEXIST')
        throw new OutsideFailure(
          `${relative(cwd, path)} is there already`,
          'choose another id, or edit that file',
          true,
        );
      throw error;
    }
    out(`wrote ${relative(cwd, path)}`);
    return EXIT.fine;
  },
});
