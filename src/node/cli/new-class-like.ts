import { join, relative } from 'node:path';
import { changesSince, nextClass } from '../../core/fit/index.ts';
import { classSchema } from '../../core/model/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { saveText } from '../files/index.ts';
import { loadSolver } from '../programs/index.ts';
import { type Context, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';

/** `new class <id> --like <class> --date <day>`: writes the file, then says what has changed since the earlier one. */
export async function newClassLike(
  id: string,
  flags: Flags,
  { content, cwd, load, out, say }: Context,
): Promise<ExitCode> {
  const [like, date] = [flags.text('like'), flags.text('date')];
  if (like === undefined || date === undefined) {
    say(`a class like another needs both, such as new class ${id} --like chain-saturday --date 2027-09-04`);
    return EXIT.callIsWrong;
  }
  if (!classSchema.shape.date.safeParse(date).success) {
    say(`"${date}" is no day; a date reads YYYY-MM-DD, such as 2027-09-04`);
    return EXIT.callIsWrong;
  }
  const { shop, texts } = await load();
  const earlier = shop.classes.find((each) => each.id === like);
  const text = earlier && texts.get(earlier.origin.place.file);
  if (!earlier || text === undefined) {
    if (shop.broken.has(like)) {
      say(`the class "${like}" cannot be read; liftside check says why`);
      return EXIT.contentHasErrors;
    }
    const ids = shop.classes.map((each) => each.id);
    say(`no class "${like}": ${didYouMean(like, ids)}`);
    return EXIT.callIsWrong;
  }
  const next = nextClass(earlier, text, shop, { id, date });
  if (!next.ok) {
    say(`${next.problem}\n${next.help}`);
    return EXIT.contentHasErrors;
  }
  const file = `classes/${id}.yaml`;
  const saved = await saveText(content, { file, was: undefined, text: next.value.text });
  if (!saved.ok) {
    const there = saved.reason === 'changed';
    throw new OutsideFailure(saved.problem, there ? 'choose another id, or edit that file' : saved.help, there);
  }
  out(`wrote ${relative(cwd, join(content, file))}`);
  for (const line of changesSince(earlier, next.value, shop, await loadSolver())) out(line);
  return EXIT.fine;
}
