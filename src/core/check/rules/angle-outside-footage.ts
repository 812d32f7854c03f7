import { placeOf } from '../../model/index.ts';
import { editList, lengthOf, printClockTime, TICKS_PER_SECOND, without } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { ANGLES, replaceIn } from '../sample.ts';

/** Less than this between what is shown and what the angle holds is a rounded time, not a gap, ticks. */
const ROUNDED_TICKS = TICKS_PER_SECOND / 1000;

export default rule({
  id: 'angle-outside-footage',
  severity: 'warning',
  why: 'The camera did not run all the while; the recording’s own camera is shown instead, perhaps in the middle of a hand.',
  bad: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side', '0:07:00')),
  says: '7:44 the camera "side" did not run for 0:01:00 of this range',
  good: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side')),

  *recording({ recordings }) {
    for (const recording of recordings)
      for (const shot of recording.shots) {
        const { angle, index } = shot;
        const own = recording.angles.filter(({ id }) => id === angle);
        // Unknown, not aligned or not there: told by rules of their own.
        if (own.length === 0 || own.some(({ span }) => span === undefined)) continue;
        const covered = editList(own.flatMap(({ span }) => span ?? []));
        const open = without([shot], covered).reduce((sum, gap) => sum + lengthOf(gap), 0);
        if (open > ROUNDED_TICKS)
          yield {
            place: placeOf(recording, 'edit', index, 'angle'),
            message: `the camera "${angle}" did not run for ${printClockTime(open)} of this range`,
            help: `it covers ${covered.map(({ start, end }) => `${printClockTime(start)} to ${printClockTime(end)}`).join(', ') || 'nothing of the recording'}: end the range there, or correct its offset`,
          };
      }
  },
});
