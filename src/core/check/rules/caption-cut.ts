import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

export default rule({
  id: 'caption-cut',
  severity: 'warning',
  why: 'Where a cut goes through a sentence, what is read and what is heard part ways.',
  bad: cues('04:58.000 --> 05:04.000\nMind the spring.'),
  says: '3:1 a cut goes through "Mind the spring.": 0:00:02 of its 0:00:06 are shown, with all its words',
  good: cues('04:56.000 --> 05:00.000\nMind the spring.\n\n05:10.000 --> 05:14.000\nI lost the pin.'),

  *recording(shop) {
    for (const { programme } of recordingsWithCaptions(shop))
      yield* first(
        programme.cut.map(({ from, kept, lost, lostWords }) => {
          const words = lostWords === '' ? 'with all its words' : `without ${quoteWords(lostWords)}`;
          const shown = `${printClockTime(kept)} of its ${printClockTime(kept + lost)}`;
          return {
            place: from.place,
            message:
              lost === 0
                ? `${quoteWords(from.text)} runs on over a join of the programme`
                : `a cut goes through ${quoteWords(from.text)}: ${shown} are shown, ${words}`,
            help: 'move the in or out point to a pause, or divide the caption there',
          };
        }),
        'captions have a cut through them',
      );
  },
});
