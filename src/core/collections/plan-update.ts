import type { Diagnostic } from '../model/index.ts';
import { type Choose, type Compared, isTable, mergeTable } from '../pack/index.ts';
import { ok, type Parsed } from '../time/index.ts';
import { decideByBase } from './decide.ts';
import { mergeLesson } from './merge-lesson.ts';
import type { Comparison } from './merge-rows.ts';
import { openChoice } from './open-choice.ts';

/** Texts of the shop and of a collection, by path relative to the content folder. */
export interface UpdateTexts {
  readonly ours: ReadonlyMap<string, string>;
  /** The version in use; empty where the collection is new. */
  readonly base: ReadonlyMap<string, string>;
  readonly theirs: ReadonlyMap<string, string>;
}

/** Captions and pictures: what the shop has against both versions, found by sums. */
export type FileState = Extract<Compared['state'], 'new' | 'same' | 'own' | 'changed' | 'differs'>;

export interface UpdateWishes {
  /** Name and version, such as `tarn-values 1.3.0`. */
  readonly from: string;
  /** Where the new version is kept: path in the content folder. */
  readonly kept: string;
  readonly choose: Choose;
  /** Who has compared new values, and when. */
  readonly comparison?: Comparison | undefined;
}

/** What an update would do. */
export interface UpdatePlan {
  readonly compared: readonly Compared[];
  readonly texts: readonly { readonly file: string; readonly text: string; readonly was: string | undefined }[];
  readonly copies: readonly string[];
  /** What is to be chosen and is not yet, with both texts and places; while there is one, nothing is written. */
  readonly open: readonly Diagnostic[];
  /** Specs whose value is taken, as `<machine>#<id>`. */
  readonly values: readonly string[];
  /** Those of them that can hurt somebody and that nobody here has compared yet. */
  readonly uncompared: readonly string[];
}

/**
 * A new version of a collection laid into a shop's content, by three versions. What only one side changed is taken or
 * stays; what both changed, and every value that changes, is chosen by name.
 *
 * @param others captions and pictures of the collection
 */
export function planUpdate(
  { ours, base, theirs }: UpdateTexts,
  others: ReadonlyMap<string, FileState>,
  { from, kept, choose, comparison }: UpdateWishes,
): Parsed<UpdatePlan> {
  const compared: Compared[] = [];
  const texts: { file: string; text: string; was: string | undefined }[] = [];
  const open: Diagnostic[] = [];
  const [values, uncompared]: [string[], string[]] = [[], []];
  const setting = { ours, theirs, from, kept };
  const inOrder = (a: readonly [string, unknown], b: readonly [string, unknown]) => (a[0] < b[0] ? -1 : 1);
  for (const [file, there] of [...theirs].toSorted(inOrder)) {
    const here = ours.get(file);
    if (here === undefined) {
      // Taken away by the shop itself, and not changed since.
      const gone = base.get(file) === there;
      compared.push({ name: file, state: gone ? 'own' : 'new' });
      if (!gone) texts.push({ file, text: there, was: undefined });
      continue;
    }
    const valueNames = new Set<string>();
    const decide = decideByBase(choose, comparison, (name, { uncompared: nobody, taken }) => {
      valueNames.add(name);
      if (!taken) return;
      values.push(specName(name));
      if (nobody) uncompared.push(name);
    });
    const versions = { ours: here, theirs: there, base: base.get(file), from };
    const merged = isTable(file) ? mergeTable(file, versions, decide) : ok(mergeLesson(file, versions, choose));
    if (!merged.ok) return merged;
    compared.push(...merged.value.compared);
    if (merged.value.text !== here) texts.push({ file, text: merged.value.text, was: here });
    for (const each of merged.value.compared)
      if (each.state === 'differs' && choose(each.name) === undefined)
        open.push(openChoice(each, setting, valueNames.has(each.name)));
  }
  const copies: string[] = [];
  for (const [file, state] of [...others].toSorted(inOrder)) {
    compared.push({ name: file, state });
    if (state === 'new' || state === 'changed' || (state === 'differs' && choose(file) === 'take')) copies.push(file);
    if (state === 'differs' && choose(file) === undefined) open.push(openChoice({ name: file, state }, setting, false));
  }
  return ok({ compared, texts, copies, open, values, uncompared });
}

/** `specs/tarn-420.yaml#axle-nut` → `tarn-420#axle-nut`. */
function specName(name: string): string {
  return name.replace(/^specs\/(.*)\.yaml#/, '$1#');
}
