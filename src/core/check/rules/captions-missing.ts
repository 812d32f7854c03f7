import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'captions-missing',
  severity: 'warning',
  why: 'Anybody who cannot hear, or who stands beside a running compressor, misses all that is said (WCAG 2.2, 1.2.2 Captions, level A).',
  bad: replaceIn('recordings/chain.yaml', 'captions: media/chain.vtt\n', ''),
  says: '1:1 chain has no captions',
  good: SOUND,

  *lesson({ recordings, lessons }) {
    for (const recording of recordings) {
      if (recording.captions || lessons.every(({ draft }) => draft)) continue;
      yield {
        place: placeOf(recording),
        message: `${recording.id} has no captions`,
        help: 'name a WebVTT or SRT file under captions:, in recording time',
      };
    }
  },
});
