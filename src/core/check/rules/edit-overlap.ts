import { placeOf } from '../../model/index.ts';
import { parseMoment, printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'edit-overlap',
  severity: 'error',
  why: 'Ranges are shown in the order of the recording and once; what was meant by repeating or turning them round is lost.',
  bad: replaceIn('recordings/chain.yaml', '"0:06:00"', '"0:04:00"'),
  says: '7:10 this range starts at 0:04:00, before the one above it ends at 0:05:00',
  good: SOUND,

  *recording({ recordings }) {
    for (const recording of recordings) {
      const labelling = { startFrame: recording.startFrame, ...(recording.rate ? { rate: recording.rate } : {}) };
      let last = -1;
      for (const [index, entry] of (recording.written.edit ?? []).entries()) {
        const [start, end] = [parseMoment(entry.in, labelling), parseMoment(entry.out, labelling)];
        if (!start.ok || !end.ok) continue;
        if (start.value < last)
          yield {
            place: placeOf(recording, 'edit', index, 'in'),
            message: `this range starts at ${printClockTime(start.value)}, before the one above it ends at ${printClockTime(last)}`,
            help: 'put ranges in the order of the recording, each after the end of the one before',
          };
        last = Math.max(last, end.value);
      }
    }
  },
});
