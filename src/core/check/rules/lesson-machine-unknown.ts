import { placeOf } from '../../model/index.ts';
import { didYouMean, plural } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'lesson-machine-unknown',
  severity: 'error',
  why: 'Without its machine no value of the lesson can be shown or checked.',
  bad: replaceIn('lessons/chain.mdx', 'machine: tarn-420', 'machine: tarn-402'),
  says: '4:10 no machine "tarn-402"',
  good: SOUND,

  *check({ lessons, machines, broken }) {
    const ids = machines.map(({ id }) => id);
    const told = new Set<string>();
    for (const lesson of lessons)
      if (!ids.includes(lesson.machine) && !broken.has(lesson.machine) && !told.has(lesson.machine)) {
        told.add(lesson.machine);
        const others = lessons.filter((each) => each.machine === lesson.machine).length - 1;
        yield {
          place: placeOf(lesson, 'machine'),
          message: `no machine "${lesson.machine}"${others > 0 ? `, which ${plural(others, 'lesson')} more ${others === 1 ? 'names' : 'name'} too` : ''}`,
          help: didYouMean(lesson.machine, ids, `write specs/${lesson.machine}.yaml`),
        };
      }
  },
});
