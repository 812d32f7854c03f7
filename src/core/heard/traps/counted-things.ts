import { isNumberWord } from '../side-by-side.ts';
import { wordAt } from '../tokens.ts';
import type { InContext } from './trap.ts';

/** Words that pick some out, or say what is done to them. */
const PICKED =
  /\b(all|these|those|the|next|first|last|other|another|every|any|mark|marks|paint|clean|move|(?<!\b(?:i|we) )count|remove|removes|take|took|add|adds|added|keep|skip|skips|skipped|lost|lose|loses|lift|drop|push|break|broke|grind|missing|jump|jumps|jumped|miss|shorten it by|out|by|(?<=eighth |inch |thou |mil )over|(?<!\b(?:capacity|total|count) )of)\s+$/;
/** What the ones picked out do or get. */
const PARTIAL =
  /^\W*(at a time|out\b(?! back| of)|off\b|apart|too (long|short|many|few)|(shorter|longer|more|fewer|missing|broken|gone|worn|stiff)\b|back|along|later)/;

/** `mark all five links`, `skip two teeth`: some of them, not how many there are. */
export function picksSomeOut({ pieces, number, unit, to, said }: InContext): boolean {
  if (unit.kind !== 'count') return false;
  const filled =
    to - number.to > 1 && !/^(drive|chain|-|odd|so|ish)$/.test(wordAt(pieces, to - 2)) && !isNumberWord(pieces[to - 2]);
  return filled || PICKED.test(said.before) || PARTIAL.test(said.after(to));
}
