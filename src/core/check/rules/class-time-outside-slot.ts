import { leastTime, partLookup, secondsOfDay } from '../../fit/index.ts';
import { placeOf } from '../../model/index.ts';
import { twoDigits } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

const DAY = 24 * 3600;

export default rule({
  id: 'class-time-outside-slot',
  severity: 'error',
  why: 'A block that starts outside the slot can never be given.',
  bad: replaceIn('classes/saturday.yaml', '    kind: screen\n', '    kind: screen\n    at: "12:30"\n'),
  says: '15:9 12:30 is not within the slot, 10:00 to 12:00',
  good: SOUND,

  *check(shop) {
    const parts = partLookup(shop);
    for (const shopClass of shop.classes) {
      const least = leastTime(shopClass, parts);
      // Of a slot that is too short anyway, this is told by another rule: nothing would be in place within it.
      if (least.seconds > least.text.slotSeconds) continue;
      const start = secondsOfDay(shopClass.starts);
      const slot = secondsOfDay(shopClass.slot);
      const end = (start + slot) % DAY;
      const clock = `${twoDigits(Math.floor(end / 3600))}:${twoDigits((end / 60) % 60)}`;
      const inside = (time: string) => (secondsOfDay(time) - start + DAY) % DAY <= slot;
      for (const [index, { at, between }] of shopClass.blocks.entries()) {
        const times = [
          ...(at === undefined ? [] : [{ time: at, path: ['at'] }]),
          ...(between ?? []).map((time, i) => ({ time, path: ['between', i] })),
        ];
        // A window may reach past the slot; what counts is that it begins in it.
        for (const { time, path } of times.slice(0, 1))
          if (!inside(time))
            yield {
              place: placeOf(shopClass, 'blocks', index, ...path),
              message: `${time} is not within the slot, ${shopClass.starts} to ${clock}`,
              help: 'move it into the slot, or move the slot',
            };
        const [from, until] = between ?? [];
        if (
          from !== undefined &&
          until !== undefined &&
          inside(from) &&
          (secondsOfDay(until) - secondsOfDay(from) + DAY) % DAY > slot
        )
          yield {
            place: placeOf(shopClass, 'blocks', index, 'between', 1),
            message: `${until} does not come after ${from}`,
            help: 'write the earlier time first',
          };
      }
    }
  },
});
