import { mkdir } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { slug } from '../../core/read/index.ts';
import { saveText } from '../files/index.ts';
import { command, EXIT, OutsideFailure } from './command.ts';
import { newClassLike } from './new-class-like.ts';
import { STARTERS, type StarterKind } from './starters.ts';

const KINDS = Object.keys(STARTERS).filter((kind): kind is StarterKind => kind in STARTERS);

export default command({
  name: 'new',
  summary: 'a commented starting file for a lesson, recording, class or machine, or for the words of the trade',
  args: ['<kind>', '[id]'],
  options: [
    { name: 'like', value: 'CLASS', help: 'of a class: begin with this earlier one, with what it has taught' },
    { name: 'date', value: 'YYYY-MM-DD', help: 'with --like: the day of the new class' },
  ],

  async run([kind = '', id = ''], flags, around) {
    const { content, cwd, out, say } = around;
    const known = KINDS.find((k) => k === kind);
    if (!known) {
      say(`"${kind}" is nothing that can be started; say one of ${KINDS.join(', ')}`);
      return EXIT.callIsWrong;
    }
    const { folder, ending, file: only, text } = STARTERS[known];
    if (only === undefined && id === '') {
      say(`say the id of the ${known} too, such as new ${known} chain`);
      return EXIT.callIsWrong;
    }
    if (only === undefined && slug(id) !== id) {
      say(`"${id}" cannot be an id: it is small letters, digits and single hyphens, such as "${slug(id)}"`);
      return EXIT.callIsWrong;
    }
    if (flags.has('like') || flags.has('date')) {
      if (known !== 'class') {
        say(`--like and --date are for a class, not for a ${known}`);
        return EXIT.callIsWrong;
      }
      return newClassLike(id, flags, around);
    }
    const file = only ?? `${folder}/${id}${ending}`;
    await mkdir(content, { recursive: true });
    const saved = await saveText(content, { file, was: undefined, text: text(id) });
    if (!saved.ok) {
      const there = saved.reason === 'changed';
      const help = there ? 'choose another id, or edit that file' : saved.help;
      throw new OutsideFailure(saved.problem, help, there);
    }
    out(`wrote ${relative(cwd, join(content, file))}`);
    return EXIT.fine;
  },
});
