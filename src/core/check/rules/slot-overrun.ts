import { leastTime, partLookup } from '../../fit/index.ts';
import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'slot-overrun',
  severity: 'error',
  why: 'The class cannot end on time, whatever is left out.',
  bad: replaceIn('classes/saturday.yaml', 'slot: "2:00"', 'slot: "0:06"\nbuffer: 3'),
  says: '4:7 what has to be given takes 0:05 at least, the slot is 0:06 and 3 min are to stay free',
  good: SOUND,

  *check(shop) {
    const parts = partLookup(shop);
    for (const shopClass of shop.classes) {
      const { seconds, text } = leastTime(shopClass, parts);
      if (seconds > text.slotSeconds)
        yield {
          place: placeOf(shopClass, 'slot'),
          builtOn: [placeOf(shopClass, 'attendees')],
          message: `what has to be given takes ${text.takes} at least, the slot is ${text.slot}${text.buffer}`,
          help: `liftside fit ${shopClass.id} names what is in conflict and the ways out`,
        };
    }
  },
});
