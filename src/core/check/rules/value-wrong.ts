import type { Shop } from '../../model/index.ts';
import { correctionOf, type Disagreement, disagreements } from '../../programme/index.ts';
import { kindInWords, writtenAmount } from '../../spec/index.ts';
import { printClockTime } from '../../time/index.ts';
import type { Finding } from '../rule.ts';

/** A finding for each value a recording says, or shows, that the table no longer agrees with and no correction covers. */
export function* valuesWrong(shop: Shop, how: Disagreement['how']): Generator<Finding> {
  for (const found of disagreements(shop)) {
    if (found.how !== how || correctionOf(shop, found)) continue;
    const { heard, at, row, step, words, difference, critical } = found;
    const { part, off, slip } = difference;
    const by = `${Math.abs(off)} ${part.amount.unit} ${off < 0 ? 'too little' : 'too much'}`;
    const cite = step.cites.find(({ spec }) => spec === row.id);
    yield {
      ...(critical ? { severity: 'error' as const } : {}),
      place: cite?.place ?? step.place,
      message: `at ${printClockTime(at)} "${heard.text}" is ${how}, but ${row.id} is ${writtenAmount(part.amount, part.kind)}: ${by}${slip ? `, as if ${slip.taken} were taken for ${slip.meant}` : ''}`,
      help: `compare with the source of the ${kindInWords(part.kind)}; if the recording is wrong, accept a correction: liftside corrections ${found.lesson.id} --accept`,
      see: { place: words.place, note: `${how} here: "${words.text.replaceAll('\n', ' ')}"` },
    };
  }
}
