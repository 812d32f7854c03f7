import { mkdir, readdir } from 'node:fs/promises';
import { join, relative, resolve } from 'node:path';
import { slug } from '../../core/read/index.ts';
import { saveText } from '../files/index.ts';
import { type Context, command, EXIT, OutsideFailure } from './command.ts';
import { newClassLike } from './new-class-like.ts';
import { newShop } from './new-shop.ts';
import { type KnownIds, STARTERS, type StarterKind } from './starters.ts';

const KINDS = Object.keys(STARTERS).filter((kind): kind is StarterKind => kind in STARTERS);

export default command({
  name: 'new',
  summary:
    'a commented starting file for a lesson, recording, class or machine, for the kit or the words of the trade; or a whole shop',
  args: ['[kind]', '[id]'],
  options: [
    { name: 'like', value: 'CLASS', help: 'of a class: begin with this earlier one, with what it has taught' },
    { name: 'date', value: 'YYYY-MM-DD', help: 'with --like: the day of the new class' },
  ],

  async run([namedKind = '', namedId = ''], flags, around) {
    const { content, cwd, out, say, ask } = around;
    const kind = namedKind || ((await ask?.(`What do you want to begin (shop, ${KINDS.join(', ')})? `)) ?? '');
    const idIsNeeded = kind === 'shop' || (isKind(kind) && STARTERS[kind].file === undefined);
    const asked = kind === 'shop' ? 'Its folder, such as ../our-shop? ' : `The id of the ${kind}, such as chain? `;
    const id = namedId || (idIsNeeded ? ((await ask?.(asked)) ?? '') : '');
    if (kind === 'shop') {
      if (id === '') {
        say('say the folder of the new shop too, such as new shop ../our-shop');
        return EXIT.callIsWrong;
      }
      const folder = resolve(cwd, id);
      const shown = relative(cwd, folder) || '.';
      for (const file of await newShop(folder, cwd)) out(`wrote ${join(shown, file)}`);
      say(`every FILL IN is yours to replace; liftside check --content ${shown} says which are left`);
      return EXIT.fine;
    }
    const known = KINDS.find((k) => k === kind);
    if (!known) {
      if (kind === '') say(`say what to begin: shop, ${KINDS.join(', ')}`);
      else say(`"${kind}" cannot be started; say one of shop, ${KINDS.join(', ')}`);
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
    const saved = await saveText(content, {
      file,
      was: undefined,
      text: text(id, await idsFor(known, content, id, ask)),
    });
    if (!saved.ok) {
      const there = saved.reason === 'changed';
      const help = there ? 'choose another id, or edit that file' : saved.help;
      throw new OutsideFailure(saved.problem, help, there);
    }
    out(`wrote ${relative(cwd, join(content, file))}`);
    return EXIT.fine;
  },
});

function isKind(kind: string): kind is StarterKind {
  return kind in STARTERS;
}

/**
 * What a new file may name: the recording of the same id, or the only one; the only machine, the only lesson. Where
 * there are several, whoever sits there is asked; nobody there, or no answer, leaves the blank.
 */
async function idsFor(kind: StarterKind, content: string, id: string, ask: Context['ask']): Promise<KnownIds> {
  const pick = async (what: string, folder: string, ending: string) => {
    const names = await readdir(join(content, folder)).catch(() => []);
    const ids = names.filter((name) => name.endsWith(ending)).map((name) => name.slice(0, -ending.length));
    if (ids.includes(id)) return id;
    if (ids.length < 2) return ids[0];
    const answer = await ask?.(`Which ${what}: ${ids.toSorted().join(', ')}? Enter leaves it blank. `);
    return ids.find((each) => each === answer);
  };
  if (kind !== 'lesson' && kind !== 'class') return {};
  const known = {
    recording: kind === 'lesson' ? await pick('recording', 'recordings', '.yaml') : undefined,
    machine: kind === 'lesson' ? await pick('machine', 'specs', '.yaml') : undefined,
    lesson: kind === 'class' ? await pick('lesson', 'lessons', '.mdx') : undefined,
  };
  const { recording, machine, lesson } = known;
  return { ...(recording && { recording }), ...(machine && { machine }), ...(lesson && { lesson }) };
}
