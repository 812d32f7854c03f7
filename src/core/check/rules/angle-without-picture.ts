import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { ANGLES, replaceIn } from '../sample.ts';

export default rule({
  id: 'angle-without-picture',
  severity: 'error',
  why: 'The edit list shows it, and there is nothing to see.',
  bad: {
    ...replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side')),
    soundOnly: ['media/side.mp4'],
  },
  says: '7:44 media/side.mp4 of the camera "side" has no picture',
  good: replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side')),

  *recording({ recordings }) {
    for (const recording of recordings)
      for (const { angle, index } of recording.shots) {
        const blind = recording.angles.find(
          ({ id, facts }) => id === angle && facts.state === 'media' && facts.media.framesPerSecond === undefined,
        );
        if (blind)
          yield {
            place: placeOf(recording, 'edit', index, 'angle'),
            message: `${blind.file} of the camera "${angle}" has no picture`,
            help: `to hear it throughout, write sound: ${angle} in the recording`,
          };
      }
  },
});
