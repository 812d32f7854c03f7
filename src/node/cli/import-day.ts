import { parse } from 'yaml';
import { check, reportText } from '../../core/check/index.ts';
import type { ShopClass } from '../../core/model/index.ts';
import { readShop } from '../../core/read/index.ts';
import { type LoadedShop, saveTexts } from '../files/index.ts';
import { factsIn } from '../pack/source.ts';
import { EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';
import { patch } from './patch.ts';

interface DayImport {
  readonly shopClass: ShopClass;
  /** As the caller has named it. */
  readonly file: string;
  readonly text: string;
  readonly content: string;
  readonly loaded: LoadedShop;
  /** YYYY-MM-DD */
  readonly today: string;
  readonly flags: Flags;
  readonly out: (text: string) => void;
  readonly say: (text: string) => void;
}

/**
 * What was saved on the day of a class that was led from a package, put where the local site would have written it. What
 * the shop has of that class already stays, unless it says the same or its place is asked for.
 */
export async function importDay(wishes: DayImport): Promise<ExitCode> {
  const { shopClass, file, text, content, loaded, today, flags, out, say } = wishes;
  const path = pathOf(shopClass.id, text);
  if (path === undefined) {
    say(`${file} is neither how long the blocks of a class took nor the questions set aside in it`);
    say('save both files from the page that the class was led from, and import each');
    return EXIT.contentHasErrors;
  }
  const texts = new Map([...loaded.texts, [path, text]]);
  const { shop, diagnostics } = readShop(texts, factsIn(loaded.shop));
  const wrong = check(shop, diagnostics, { today }).filter(
    ({ severity, place }) => severity === 'error' && place.file === path,
  );
  if (wrong.length > 0) {
    say(reportText(wrong, texts, () => file));
    return EXIT.contentHasErrors;
  }
  const was = loaded.texts.get(path);
  if (was === text) {
    say('nothing changes');
    return EXIT.fine;
  }
  const change = { file: path, was, text };
  out(patch(change));
  if (was !== undefined && !flags.has('replace')) {
    say(`${path} is there already and says something else; --replace puts ${file} in its place`);
    return EXIT.contentHasErrors;
  }
  if (flags.has('dry-run')) return EXIT.fine;
  const saved = await saveTexts(content, [change]);
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
  say(`wrote ${path}`);
  return EXIT.fine;
}

/** Where a text of the day of a class belongs; nothing where it is none. */
function pathOf(id: string, text: string): string | undefined {
  let read: unknown;
  try {
    read = parse(text);
  } catch {
    return undefined;
  }
  if (typeof read !== 'object' || read === null) return undefined;
  return 'questions' in read ? `questions/${id}.yaml` : 'blocks' in read ? `classes/${id}.actual.yaml` : undefined;
}
