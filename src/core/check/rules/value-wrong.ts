import type { Spec } from '../../model/index.ts';
import { correctionOf, type Disagreement, disagreements, offInWords, type RowAgainst } from '../../programme/index.ts';
import { kindInWords, partsOf, writtenAmount } from '../../spec/index.ts';
import { printClockTime } from '../../time/index.ts';
import type { OneLesson } from '../alone.ts';
import type { Finding } from '../rule.ts';

/** A finding for each value a recording says, or shows, that the table no longer agrees with and no correction covers. */
export function* valuesWrong(shop: OneLesson, how: Disagreement['how']): Generator<Finding> {
  for (const found of disagreements(shop)) {
    if (found.how !== how || correctionOf(shop, found)) continue;
    const { heard, at, spec, rows, passage, words, critical } = found;
    // What is said may be right for a row that the step cites and that could not be read.
    if (passage.cites.some((cite) => shop.broken.has(cite.spec))) continue;
    const cite = passage.cites.find((each) => each.spec === spec);
    yield {
      ...(critical ? { severity: 'error' as const } : {}),
      place: cite?.place ?? passage.place,
      message: `at ${printClockTime(at)} "${heard.text.replaceAll(/\s+/g, ' ')}" is ${how}, but ${spec} is ${rows.map(rowInWords).join('; and ')}`,
      help: `compare with the source of the ${kindInWords(rows[0].difference.part.kind)}; if the recording is wrong, accept a correction: liftside corrections ${found.lesson.id} --accept`,
      see: { place: words.place, note: `${how} here: "${words.text.replaceAll('\n', ' ')}"` },
      builtOn: [...rows.map(({ row }) => row), ...othersMeant(shop, found)].map((row) => row.origin.place),
    };
  }
}

/**
 * Other rows that the words may be right for: those of the kind that the step cites, and those whose numbers make no sense.
 * Where one of them is doubted, it is what has to be looked at first.
 */
function othersMeant({ machines }: OneLesson, { passage, spec, heard }: Disagreement): readonly Spec[] {
  const own = machines.flatMap(({ specs }) => specs);
  const cited = new Set([spec, ...passage.cites.map((cite) => cite.spec)]);
  return own.filter(({ id, quantity }) =>
    quantity === undefined
      ? cited.has(id) || passage.cites.length === 0
      : id !== spec && cited.has(id) && partsOf(quantity).some(({ kind }) => kind === heard.kind),
  );
}

function rowInWords({ difference: { part, off, slip }, whose, heldUntil }: RowAgainst): string {
  const value = writtenAmount(part.amount, part.kind);
  const likely = slip ? `, as if ${slip.taken} were taken for ${slip.meant}` : '';
  const held = heldUntil ? `, right until ${heldUntil}` : '';
  return `${value}${whose ? ` for ${whose}` : ''}: ${offInWords(off, part.amount.unit)}${likely}${held}`;
}
