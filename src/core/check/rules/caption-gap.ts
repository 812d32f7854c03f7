import { placeOf } from '../../model/index.ts';
import { editList, invert, lengthOf, printClockTime, TICKS_PER_SECOND, ticks, within } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { captioned, cues, first } from './captions.ts';

/** A longer silence is rare in a shop where somebody explains. (Common practice, no source.) */
const MOST = 60 * TICKS_PER_SECOND;

export default rule({
  id: 'caption-gap',
  severity: 'info',
  why: 'Who cannot hear cannot tell a pause from captions that are missing.',
  bad: cues('00:12.000 --> 04:30.000\nHold.\n\n06:00.000 --> 06:10.000\nPull.\n\n08:00.000 --> 09:00.000\nPush.', ''),
  says: '6:1 after 0:06:10 no caption comes for 0:01:50',
  good: cues('00:12.000 --> 04:30.000\nHold.\n\n06:00.000 --> 09:00.000\nPull.', ''),

  *check(shop) {
    for (const { recording, cues } of captioned(shop)) {
      const { edit, length } = recording;
      const said = editList(cues.map(({ at }) => at));
      const silent = invert(said, length ?? said.at(-1)?.end ?? ticks(0)).filter(
        (gap) => within(edit, gap).reduce((sum, kept) => sum + lengthOf(kept), 0) > MOST,
      );
      yield* first(
        silent.map((gap) => {
          const ahead = cues.findLast(({ at }) => at.end <= gap.start);
          const shown = within(edit, gap).reduce((sum, kept) => sum + lengthOf(kept), 0);
          return {
            place: ahead?.place ?? placeOf(recording, 'captions'),
            message: `after ${printClockTime(gap.start)} no caption comes for ${printClockTime(shown)}`,
            help: 'write what is heard there, or say [no speech]',
          };
        }),
        'stretches over a minute have no caption',
      );
    }
  },
});
