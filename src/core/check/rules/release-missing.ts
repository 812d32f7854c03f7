import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'release-missing',
  severity: 'error',
  why: 'Nobody may be shown to the public who has not agreed to it.',
  bad: replaceIn('recordings/chain.yaml', 'release: on-file', 'release: missing'),
  says: '9:33 the instructor of chain has not agreed to be shown',
  good: SOUND,

  *recording({ recordings }) {
    for (const recording of recordings) {
      const { people } = recording.written;
      if (!people)
        yield {
          severity: 'warning',
          place: placeOf(recording),
          message: `${recording.id} does not say who is seen or heard in it`,
          help: 'list them under people: with role and release: on-file, missing or not-needed',
        };
      for (const [index, { role, release }] of (people ?? []).entries())
        if (release === undefined || release === 'missing')
          yield {
            place: placeOf(recording, 'people', index, 'release'),
            message: `the ${role} of ${recording.id} has not agreed to be shown`,
            help: 'get the signed release and write release: on-file, or cut the footage',
          };
    }
  },
});
