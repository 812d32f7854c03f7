import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';

export default rule({
  id: 'cue-overlap',
  severity: 'error',
  why: 'One moment of the recording would belong to two steps, and the page could follow only one.',
  bad: lesson(
    '## Wheel\n<Cue at="0:00:20" />\n\n### Lift\n<Cue at="0:01:00" until="0:02:30" />\n\n### Turn\n<Cue at="0:02:00" />',
  ),
  says: '10:1 the cue of "Lift" ends at 0:02:30, after "Turn" starts at 0:02:00',
  good: SOUND,

  *lesson({ lessons }) {
    for (const { chapters } of lessons) {
      const order = chapters.flatMap((chapter) => chapter.steps).filter(({ cue }) => cue);
      for (const passages of [chapters.filter(({ cue }) => cue), order])
        for (const [index, { title, cue }] of passages.entries()) {
          const next = passages[index + 1];
          const starts = next?.cue?.at;
          if (!cue?.until || !next || starts === undefined || starts <= cue.at || cue.until <= starts) continue;
          yield {
            place: cue.place,
            message: `the cue of "${title}" ends at ${printClockTime(cue.until)}, after "${next.title}" starts at ${printClockTime(starts)}`,
            help: 'until is the first moment that no longer belongs to the step; leave it out where the next step follows at once',
          };
        }
    }
  },
});
