import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { unknownInLessons } from './unknown-in-lessons.ts';

export default rule({
  id: 'lesson-machine-unknown',
  severity: 'error',
  why: 'Without its machine no value of the lesson can be shown or checked.',
  bad: replaceIn('lessons/chain.mdx', 'machine: tarn-420', 'machine: tarn-402'),
  says: '4:10 no machine "tarn-402"',
  good: SOUND,

  check(shop) {
    return unknownInLessons(
      shop,
      'machine',
      shop.machines.map(({ id }) => id),
    );
  },
});
