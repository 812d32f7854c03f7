import { placeOf } from '../../model/index.ts';
import { printClockTime, TICKS_PER_SECOND } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { SOUND } from '../sample.ts';

/** Cameras differ by a frame or two; a voice that stops this long before the picture is heard. (Common practice, no source.) */
const MOST = TICKS_PER_SECOND / 2;

export default rule({
  id: 'sound-ends-early',
  severity: 'warning',
  why: 'The picture goes on in silence, and what was said meanwhile is lost.',
  bad: { files: {}, sound: { 'media/chain.mp4': 590 } },
  says: '3:11 the sound of media/chain.mp4 ends 0:00:10 before its picture',
  good: { ...SOUND, sound: { 'media/chain.mp4': 600.2 } },

  *recording({ recordings }) {
    for (const recording of recordings)
      for (const [index, { file, facts }] of recording.files.entries()) {
        if (facts.state !== 'media' || facts.media.soundDuration === undefined) continue;
        const missing = facts.media.duration - facts.media.soundDuration;
        if (missing <= MOST) continue;
        yield {
          place: placeOf(recording, 'files', index, 'file'),
          message: `the sound of ${file} ends ${printClockTime(missing)} before its picture`,
          help: 'copy the file from the camera again, or cut the end of it',
        };
      }
  },
});
