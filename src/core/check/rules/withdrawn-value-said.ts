import { correctionOfWithdrawn, withdrawnSaid } from '../../programme/index.ts';
import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { both, replaceIn } from '../sample.ts';

const lesson = replaceIn('lessons/chain.mdx', ' Tighten to <Spec of="axle-nut" />.', ' Tighten the axle nut.');
const saying = both(
  both(
    lesson,
    replaceIn(
      'media/chain.vtt',
      '00:06:00.000 --> 00:09:00.000\n[working]',
      '00:06:12.000 --> 00:09:00.000\naxle nut ninety-eight newton metres',
    ),
  ),
  replaceIn(
    'specs/tarn-420.yaml',
    '    source: {document: manual, page: 41}\n',
    '    source: {document: manual, page: 41}\n    withdrawn: {on: 2026-11-20, why: the bolt was changed}\n',
  ),
);

export default rule({
  id: 'withdrawn-value-said',
  severity: 'warning',
  why: 'Somebody who works by ear would set a value that its publisher has taken back.',
  bad: saying,
  says: '9:1 at 0:06:12 "ninety-eight newton metres" is said, and axle-nut was withdrawn on 2026-11-20: the bolt was changed',
  good: both(saying, {
    files: {
      'corrections/chain.yaml':
        'corrections:\n  - step: tighten-the-nut\n    at: "0:06:12"\n    spec: axle-nut\n    said: ninety-eight newton metres\n    on: 2026-11-20\n',
    },
  }),

  *lesson(shop) {
    for (const each of withdrawnSaid(shop)) {
      if (correctionOfWithdrawn(shop, each)) continue;
      const { on = '', why = '' } = each.row.written.withdrawn ?? {};
      yield {
        ...(each.row.written.critical ? { severity: 'error' as const } : {}),
        place: each.words.place,
        message: `at ${printClockTime(each.at)} "${each.heard.text}" is ${each.how}, and ${each.spec} was withdrawn on ${on}: ${why}`,
        help: `liftside corrections ${each.lesson.id} --accept writes a correction, which says so while it is heard`,
      };
    }
  },
});
