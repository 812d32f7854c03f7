import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const expecting = (attendees: number) =>
  replaceIn('classes/saturday.yaml', 'slot: "2:00"\n', `slot: "2:00"\nattendees: ${attendees}\ncapacity: 8\n`);

export default rule({
  id: 'attendees-over-capacity',
  severity: 'error',
  why: 'Somebody is turned away at the door, or a crowded room is where people get hurt.',
  bad: expecting(9),
  says: '5:12 9 attendees are expected where there is room for 8',
  good: expecting(8),

  *around({ classes }) {
    for (const shopClass of classes) {
      const { attendees, capacity } = shopClass;
      if (attendees !== undefined && capacity !== undefined && attendees > capacity)
        yield {
          place: placeOf(shopClass, 'attendees'),
          message: `${attendees} attendees are expected where there is room for ${capacity}`,
          help: 'give the class twice, or find a larger room and set capacity',
          see: { place: placeOf(shopClass, 'capacity'), note: 'the room' },
        };
    }
  },
});
