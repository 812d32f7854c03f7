import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

export default rule({
  id: 'caption-past-end',
  severity: 'warning',
  why: 'Captions that go on after the picture belong to other footage; the rest of them may be shifted too.',
  bad: cues('10:12.000 --> 10:16.000\nMind the spring.'),
  says: '3:1 "Mind the spring." comes at 0:10:12, but chain ends at 0:10:00',
  good: cues('09:56.000 --> 10:00.000\nMind the spring.'),

  *recording(shop) {
    for (const { recording, cues } of recordingsWithCaptions(shop)) {
      const { length, id } = recording;
      if (length === undefined) continue;
      yield* first(
        cues
          .filter(({ at }) => at.start >= length)
          .map(({ at, text, place }) => ({
            place,
            message: `${quoteWords(text)} comes at ${printClockTime(at.start)}, but ${id} ends at ${printClockTime(length)}`,
            help: 'take the captions of this recording, or name all its camera files',
          })),
        `captions come after the end of ${id}`,
      );
    }
  },
});
