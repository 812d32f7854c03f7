import { wordAt } from '../tokens.ts';
import type { InContext } from './trap.ts';

const LABEL =
  /\b(part|number|numbers|no|nr|item|code|ref|reference|page|pages|figure|fig|table|step|steps|chapter|section|lesson|bay|row|grade|class|dot|sae|iso|serial|model|version|type|room|bin|shelf)[.#]?\s{0,2}$/;
/** `a tolerance of plus or minus two`: of what, it does not say. */
const TOLERANCE_ALONE = /(\bplus(,| or|\/)? minus|±|\+\/[-−–])\s*$/;
/** `a fiver a metre`. */
const MONEY = /\b(quid|pounds?|dollars?|bucks?|euros?|cents?|pence|tenner|fiver)\s+$/;
const SIZE = /(?<!\b(?:this|that|any|every|the same) )\bsizes?\W{0,3}$/;
/** What a label's number may run into: "page 12 in the manual"; nothing longer is taken for a unit by chance. */
const SHORT_UNIT = /^(in|m|g|l|n|v|a|s|h|k|c|f)$/;
const PRICE =
  /[$£€]\s?$|\b(costs?|price|priced|paid|pay|(?<!\b(?:its|the|a|full|their|this|that|of|hold|holds|keeps)\s)charged?s?|worth)\s+(\w+[\s-]+){0,3}$/;

/** `not an ounce of grease`: the least there could be is not even there. */
const NOT_EVEN_ONE =
  /\b(not( even)?|without( even)?|never|hardly|barely|scarcely|(is|was|are|were|have|has|had|do|does|did)(n't| not|n't got| not got| not have|n't have|n't see|n't get| not see)( even)?)\s+$/;

/** `a few hundredths of a millimetre`: how many, it does not say. */
const PARTS_OF_ONE = /\b(tenths?|hundredths?|thousandths?|fractions?|bits?|parts?|couple|few) of $/;

/** `on page 12 in the manual`: the number counts what the label names. */
export function numbersALabel({ pieces, to, said }: InContext): boolean {
  return LABEL.test(said.before) && SHORT_UNIT.test(wordAt(pieces, to - 1));
}

/** `it is size 10 mm`. */
export function followsTheWordSize({ said }: InContext): boolean {
  return SIZE.test(said.before);
}

export function isToleranceAlone({ number, said }: InContext): boolean {
  return TOLERANCE_ALONE.test(said.before) || (number.value < 0 && /\bplus [\w.-]+,? $/.test(said.before));
}

export function isPrice({ number, unit, said }: InContext): boolean {
  return (
    (number.article === true && MONEY.test(said.before)) ||
    ((/^(lbf?|psi)$/.test(unit.symbol) || number.article === true) && PRICE.test(said.before))
  );
}

export function isNotEvenOne({ number, said }: InContext): boolean {
  return number.article === true && (NOT_EVEN_ONE.test(said.before) || PARTS_OF_ONE.test(said.before));
}
