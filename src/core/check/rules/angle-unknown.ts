import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { ANGLES, replaceIn } from '../sample.ts';

export default rule({
  id: 'angle-unknown',
  severity: 'error',
  why: 'Nobody knows which camera is meant; the programme cannot be rendered.',
  bad: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('sied')),
  says: '7:44 chain has no camera "sied"',
  good: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side')),

  *recording({ recordings }) {
    for (const recording of recordings) {
      const { id, angles, shots, written } = recording;
      const ids = angles.map((angle) => angle.id);
      const named = [
        ...shots.map(({ angle, index }) => ({ angle, place: placeOf(recording, 'edit', index, 'angle') })),
        ...(written.sound === undefined ? [] : [{ angle: written.sound, place: placeOf(recording, 'sound') }]),
      ];
      for (const { angle, place } of named)
        if (!ids.includes(angle))
          yield {
            place,
            message: `${id} has no camera "${angle}"`,
            help: ids.length > 0 ? didYouMean(angle, ids) : 'list the camera or recorder under angles:',
          };
    }
  },
});
