import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { passagesOf } from './find.ts';

export default rule({
  id: 'cue-missing',
  severity: 'error',
  why: 'Nobody can be taken to a step whose time is not known.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\nBoth hands.'),
  says: '9:1 "Tighten" has no cue',
  good: SOUND,

  *lesson({ lessons }) {
    for (const lesson of lessons)
      for (const { title, place, cue, cueUnread } of passagesOf(lesson))
        if (!cue && !cueUnread)
          yield { place, message: `"${title}" has no cue`, help: 'write <Cue at="h:mm:ss" /> under the heading' };
  },
});
