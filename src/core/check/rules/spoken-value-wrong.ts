import { correctionOf, disagreements } from '../../programme/index.ts';
import { kindInWords, writtenAmount } from '../../spec/index.ts';
import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { changed, type Sample } from '../sample.ts';

const captions = (words: string): Sample =>
  changed('media/chain.vtt', '00:06:00.000 --> 00:09:00.000\n[working]', `00:06:12.000 --> 00:09:00.000\n${words}`);

export default rule({
  id: 'spoken-value-wrong',
  severity: 'warning',
  why: 'Whoever follows the recording by ear sets another value than the spec table gives.',
  bad: captions('torque it to eighty newton metres'),
  says: '17:75 at 0:06:12 "eighty newton metres" is said, but axle-nut is 98 ± 5 N·m: 13 N·m too little',
  good: captions('torque it to seventy-two foot-pounds'),

  *check(shop) {
    for (const found of disagreements(shop)) {
      if (correctionOf(shop, found)) continue;
      const { heard, at, row, step, caption, difference, critical } = found;
      const { part, off, slip } = difference;
      const how = `${Math.abs(off)} ${part.amount.unit} ${off < 0 ? 'too little' : 'too much'}`;
      const cite = step.cites.find(({ spec }) => spec === row.id);
      const moment = printClockTime(at);
      yield {
        ...(critical ? { severity: 'error' as const } : {}),
        place: cite?.place ?? step.place,
        message: `at ${moment} "${heard.text}" is said, but ${row.id} is ${writtenAmount(part.amount, part.kind)}: ${how}${slip ? `, as if ${slip.taken} were taken for ${slip.meant}` : ''}`,
        help: `compare with the source of the ${kindInWords(part.kind)}; if the recording is wrong, accept a correction: liftside corrections ${found.lesson.id} --accept`,
        see: { place: caption.place, note: `said here: "${caption.text.replaceAll('\n', ' ')}"` },
      };
    }
  },
});
