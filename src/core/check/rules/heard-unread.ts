import { findQuantities } from '../../heard/index.ts';
import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, recordingsWithCaptions, unreadCue } from './captions.ts';

const WORDS = 'It takes 98 newton metres.';

export default rule({
  id: 'heard-unread',
  severity: 'warning',
  why: 'A number that a machine misheard looks as sure as one that was said, and somebody may set a wrench by it.',
  bad: cues(unreadCue(12, 15, WORDS)),
  says: '3:1 at 0:00:12 a machine wrote "98 newton metres", and nobody has listened',
  good: cues(`00:12.000 --> 00:15.000\n${WORDS}`),

  *recording(shop) {
    for (const { unread } of recordingsWithCaptions(shop))
      yield* first(
        unread.flatMap(({ text, at, place }) =>
          findQuantities(text.replaceAll('\n', ' ')).map((heard) => ({
            place,
            message: `at ${printClockTime(at.start)} a machine wrote "${heard.text}", and nobody has listened`,
            help: 'in the cutting room, U plays it, to be corrected and accepted',
          })),
        ),
        'values written by a machine wait for somebody who listens',
      );
  },
});
