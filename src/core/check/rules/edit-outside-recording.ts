import { placeOf } from '../../model/index.ts';
import { parseMoment, printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'edit-outside-recording',
  severity: 'error',
  why: 'What the edit list keeps is not there: a camera file is missing from the recording, or another one stands in its place.',
  bad: { ...replaceIn('recordings/chain.yaml', '"0:09:00"', '"0:11:00"') },
  says: '7:26 the edit list of chain keeps footage up to 0:11:00, but the recording ends at 0:10:00',
  good: SOUND,

  *recording({ recordings }) {
    for (const recording of recordings) {
      const { length, written, startFrame, rate } = recording;
      if (length === undefined) continue;
      for (const [index, entry] of (written.edit ?? []).entries()) {
        const out = parseMoment(entry.out, { startFrame, ...(rate ? { rate } : {}) });
        // A frame that begins within the recording may end a little past what the container says.
        if (!out.ok || out.value <= length + (rate?.ticksPerFrame ?? 0)) continue;
        yield {
          place: placeOf(recording, 'edit', index, 'out'),
          message: `the edit list of ${recording.id} keeps footage up to ${printClockTime(out.value)}, but the recording ends at ${printClockTime(length)}`,
          help: 'name all camera files under files:, or end the range earlier',
        };
      }
    }
  },
});
