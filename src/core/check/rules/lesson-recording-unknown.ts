import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { unknownInLessons } from './unknown-in-lessons.ts';

export default rule({
  id: 'lesson-recording-unknown',
  severity: 'error',
  why: 'Without its recording the lesson has no picture and no times.',
  bad: replaceIn('lessons/chain.mdx', 'recording: chain', 'recording: chian'),
  says: '3:12 no recording "chian"',
  good: SOUND,

  check(shop) {
    return unknownInLessons(
      shop,
      'recording',
      shop.recordings.map(({ id }) => id),
    );
  },
});
