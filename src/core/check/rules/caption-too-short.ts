import { lengthOf, TICKS_PER_SECOND, toSeconds } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

/** DCMP Captioning Key: no caption under 2 seconds. */
const LEAST = 2 * TICKS_PER_SECOND;

export default rule({
  id: 'caption-too-short',
  severity: 'warning',
  why: 'A caption that flashes up is gone before the eye has found it.',
  bad: cues('00:12.000 --> 00:13.200\nMind the spring.'),
  says: '3:1 "Mind the spring." is on screen for only 1.2 s',
  good: cues('00:12.000 --> 00:14.000\nMind the spring.'),

  *recording(shop) {
    for (const { programme } of recordingsWithCaptions(shop))
      yield* first(
        programme.captions
          .filter(({ at }) => lengthOf(at) < LEAST)
          .map(({ at, text, from }) => ({
            place: from.place,
            message: `${quoteWords(text)} is on screen for only ${Number(toSeconds(lengthOf(at)).toFixed(2))} s`,
            help: 'keep a caption on screen for 2 s, or join it to the next one',
          })),
        'captions are on screen for less than 2 s',
      );
  },
});
