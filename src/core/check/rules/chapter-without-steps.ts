import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';

export default rule({
  id: 'chapter-without-steps',
  severity: 'error',
  why: 'The step index and the handout list steps; what such a chapter teaches stands in neither.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\nTake it out.'),
  says: '6:1 the chapter "Wheel" has no steps',
  good: SOUND,

  *lesson({ lessons }) {
    for (const { chapters } of lessons)
      for (const { title, place, steps } of chapters)
        if (steps.length === 0)
          yield {
            place,
            message: `the chapter "${title}" has no steps`,
            help: 'open at least one step with ### below it',
          };
  },
});
