import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

/**
 * Common practice for captions on the web, no source. The DCMP Captioning Key has 32, the width of a television
 * caption; a web player sets its own type, and at 32 most captions of a shop would be three lines over the hands.
 */
const MOST = 42;

export default rule({
  id: 'caption-line-long',
  severity: 'info',
  why: 'On a phone the line breaks where nobody chose, and covers the hands.',
  bad: cues('00:12.000 --> 00:18.000\nHold the axle head with a ring spanner and crack the nut.'),
  says: '3:1 "Hold the axle head with a ring spanner…" has a line of 57 characters',
  good: cues('00:12.000 --> 00:18.000\nHold the axle head with a ring spanner\nand crack the nut.'),

  *recording(shop) {
    for (const { cues } of recordingsWithCaptions(shop))
      yield* first(
        cues.flatMap(({ text, place }) => {
          const longest = Math.max(...text.split('\n').map((line) => [...line].length));
          if (longest <= MOST) return [];
          const message = `${quoteWords(text)} has a line of ${longest} characters`;
          return [{ place, message, help: `break it where one would take a breath; ${MOST} characters fit a line` }];
        }),
        `captions have a line of more than ${MOST} characters`,
      );
  },
});
