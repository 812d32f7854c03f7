import type { ContentChange } from './content-change.ts';
import { betweenShared, mergedText, mergeLines, mergeTexts } from './merge.ts';
import type { Content } from './session.ts';

/** Whole lines that somebody else changed: where they begin in the text without that change, and their letters. */
interface Stretch {
  readonly at: number;
  readonly without: number;
  readonly with: number;
}

/** By file, in order. */
export type OutsideChange = ReadonlyMap<string, readonly Stretch[]>;

/** A file as it was when both began, and as somebody else has written it since. */
export interface Theirs {
  readonly file: string;
  readonly base: string;
  readonly theirs: string;
}

/** What somebody else wrote, laid together with a state; nothing where the two clash. */
export function withTheirs({ file, base, theirs }: Theirs, state: Content): Content | undefined {
  const text = state.texts.get(file);
  const taken = text === undefined ? theirs : mergedText(mergeTexts(base, text, theirs));
  return taken === undefined ? undefined : { ...state, texts: new Map(state.texts).set(file, taken) };
}

/** Where a state was or would be changed by it. Lines that both changed alike are theirs too. */
export function outsideChange({ file, base, theirs }: Theirs, state: Content): OutsideChange {
  const found: Stretch[] = [];
  let at = 0;
  for (const between of betweenShared(base, state.texts.get(file) ?? '', theirs)) {
    const was = between.mine.join('');
    if (between.base.join('') !== between.theirs.join('')) {
      const is = mergedText({ pieces: mergeLines(between) }) ?? '';
      found.push({ at, without: was.length, with: is.length });
    }
    at += was.length + between.shared.length;
  }
  return new Map([[file, found]]);
}

/** A change of one's own that was carried over somebody else's, and theirs as it is on the other side of it. */
export interface Carried {
  readonly change: ContentChange;
  readonly outside: OutsideChange;
}

/**
 * Carries a change of one's own to where the text has an outside change in it, without laying whole texts together: it
 * moves by as many letters as came or went before it. A merge of two hours of captions takes some hundredths of a second,
 * and one is needed for each thing that was done.
 *
 * @param back true to take the change back from here, false to do it from here
 * @param here the state without the outside change
 * @returns nothing where a whole line does not lie between the two: then they have to be merged
 */
export function carriedOver(
  change: ContentChange,
  back: boolean,
  here: Content,
  outside: OutsideChange,
): Carried | undefined {
  const moved = new Map(outside);
  const texts: ContentChange['texts'][number][] = [];
  for (const one of change.texts) {
    const theirs = outside.get(one.file);
    if (!theirs) {
      texts.push(one);
      continue;
    }
    const text = here.texts.get(one.file);
    if (text === undefined || one.before === undefined || one.after === undefined) return undefined;
    const [own, other] = back ? [one.after.length, one.before.length] : [one.before.length, one.after.length];
    let { at } = one;
    const beside: Stretch[] = [];
    for (const stretch of theirs) {
      if (hasLineBetween(text, stretch.at + stretch.without, one.at)) {
        at += stretch.with - stretch.without;
        beside.push(stretch);
      } else if (hasLineBetween(text, one.at + own, stretch.at))
        beside.push({ ...stretch, at: stretch.at + other - own });
      else return undefined;
    }
    texts.push({ ...one, at });
    moved.set(one.file, beside);
  }
  return { change: { ...change, texts }, outside: moved };
}

/** True where at least one whole line lies between two places of a text. */
function hasLineBetween(text: string, from: number, until: number): boolean {
  const first = text.indexOf('\n', from);
  if (first < 0 || first >= until) return false;
  const second = text.indexOf('\n', first + 1);
  return second >= 0 && second < until;
}
