import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { ANGLES, replaceIn } from '../sample.ts';

export default rule({
  id: 'angle-not-aligned',
  severity: 'error',
  why: 'Another moment would be shown or heard than the one meant.',
  bad: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side', '')),
  says: '9:5 nothing says where media/side.mp4 of the camera "side" lies in chain',
  good: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side')),

  *recording({ recordings }) {
    for (const recording of recordings) {
      const { id: of, angles, shots, written } = recording;
      for (const [index, { id, file, offset }] of angles.entries()) {
        const used = written.sound === id || shots.some(({ angle }) => angle === id);
        // An offset that is written and cannot be read has been told.
        if (!used || offset !== undefined || written.angles?.[index]?.offset !== undefined) continue;
        yield {
          place: placeOf(recording, 'angles', index),
          message: `nothing says where ${file} of the camera "${id}" lies in ${of}`,
          help: `liftside align ${of} --write finds it by sound; or write offset:`,
        };
      }
    }
  },
});
