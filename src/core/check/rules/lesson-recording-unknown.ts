import { placeOf } from '../../model/index.ts';
import { didYouMean, plural } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'lesson-recording-unknown',
  severity: 'error',
  why: 'Without its recording the lesson has no picture and no times.',
  bad: replaceIn('lessons/chain.mdx', 'recording: chain', 'recording: chian'),
  says: '3:12 no recording "chian"',
  good: SOUND,

  *check({ lessons, recordings, broken }) {
    const ids = recordings.map(({ id }) => id);
    const told = new Set<string>();
    for (const lesson of lessons)
      if (!ids.includes(lesson.recording) && !broken.has(lesson.recording) && !told.has(lesson.recording)) {
        told.add(lesson.recording);
        const others = lessons.filter((each) => each.recording === lesson.recording).length - 1;
        yield {
          place: placeOf(lesson, 'recording'),
          message: `no recording "${lesson.recording}"${others > 0 ? `, which ${plural(others, 'lesson')} more ${others === 1 ? 'names' : 'name'} too` : ''}`,
          help: didYouMean(lesson.recording, ids, `write recordings/${lesson.recording}.yaml`),
        };
      }
  },
});
