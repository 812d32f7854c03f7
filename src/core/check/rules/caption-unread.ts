import { findQuantities } from '../../heard/index.ts';
import { plural } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { cues, recordingsWithCaptions, unreadCue } from './captions.ts';

const WORDS = 'Mind the spring.';

export default rule({
  id: 'caption-unread',
  severity: 'info',
  why: 'A machine mishears, and lays words where they were not said.',
  bad: cues(unreadCue(12, 14, WORDS)),
  says: '3:1 1 caption was written by a machine, and nobody has read it',
  good: cues(`00:12.000 --> 00:14.000\n${WORDS}`),

  *recording(shop) {
    for (const { unread: all } of recordingsWithCaptions(shop)) {
      // Those with a value are told one by one, by heard-unread.
      const unread = all.filter(({ text }) => findQuantities(text).length === 0);
      const [first] = unread;
      if (!first) continue;
      const were = unread.length === 1 ? 'was' : 'were';
      yield {
        place: first.place,
        message: `${plural(unread.length, 'caption')} ${were} written by a machine, and nobody has read ${unread.length === 1 ? 'it' : 'them'}`,
        help: 'in the cutting room, U goes from one to the next, to hear it, correct it and accept it',
      };
    }
  },
});
