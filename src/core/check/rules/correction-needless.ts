import { placeOf } from '../../model/index.ts';
import { correctionOf, correctionsShown, disagreements } from '../../programme/index.ts';
import { writtenQuantity } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { both, replaceIn, type Sample, SOUND } from '../sample.ts';

const correction = (words: string): Sample => ({
  files: {
    'corrections/chain.yaml': `corrections:\n  - step: tighten-the-nut\n    at: "0:06:12"\n    spec: axle-nut\n    said: ${words}\n    on: 2026-11-20\n`,
  },
});
const saying = (words: string) =>
  both(
    correction(words),
    replaceIn('media/chain.vtt', '00:06:00.000 --> 00:09:00.000\n[working]', `00:06:12.000 --> 00:09:00.000\n${words}`),
  );

export default rule({
  id: 'correction-needless',
  severity: 'warning',
  why: 'A card that corrects what is right makes people doubt the recording, and the corrections that are needed.',
  bad: saying('torque it to ninety-five newton metres'),
  says: '5:11 "torque it to ninety-five newton metres" agrees with axle-nut, 98 ± 5 N·m: nothing is left to correct',
  good: both(SOUND, saying('torque it to eighty newton metres')),

  *lesson(shop) {
    const shown = correctionsShown(shop);
    if (shown.length === 0) return;
    const needed = new Set(disagreements(shop).map((each) => correctionOf(shop, each)));
    for (const { correction: each, rows } of shown) {
      const key = each.said === undefined ? 'shown' : 'said';
      const words = each[key];
      if (needed.has(each) || words === undefined) continue;
      // As where a correction is made: only what agrees with every row is right for everybody.
      const [first] = rows;
      if (rows.some(({ verdict }) => verdict !== `as ${key}`) || !first.row.quantity) continue;
      yield {
        place: placeOf(each, key),
        message: `"${words}" agrees with ${each.spec}, ${writtenQuantity(first.row.quantity)}: nothing is left to correct`,
        help: 'compare the row with its source; if it is right, take this correction out',
      };
    }
  },
});
