import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'footage-missing',
  severity: 'error',
  why: 'The lesson would have no picture, and its times could not be checked.',
  bad: replaceIn('recordings/chain.yaml', 'media/chain.mp4', 'media/chian.mp4', {
    media: { 'media/chian.mp4': 'missing' },
  }),
  says: '3:11 there is no file media/chian.mp4',
  good: SOUND,

  *recording({ recordings }) {
    for (const recording of recordings) {
      const own = recording.files.map((each, index) => ({
        ...each,
        place: placeOf(recording, 'files', index, 'file'),
      }));
      const angles = recording.angles.map((each, index) => ({
        ...each,
        place: placeOf(recording, 'angles', index, 'file'),
      }));
      for (const { file, facts, place } of [...own, ...angles]) {
        if (facts.state === 'missing')
          yield {
            place,
            message: `there is no file ${file}`,
            help: 'the path is counted from the content folder; put the camera file there or correct the path',
          };
        else if (facts.state !== 'media')
          yield {
            place,
            message: `${file} cannot be read as footage${facts.state === 'unreadable' ? `: ${facts.reason}` : ''}`,
            help: 'copy it from the camera again, or name another file',
          };
      }
      const { captions } = recording;
      if (captions && captions.facts.state !== 'text')
        yield {
          place: placeOf(recording, 'captions'),
          message:
            captions.facts.state === 'unreadable'
              ? `the caption file ${captions.file} cannot be read: ${captions.facts.reason}`
              : `there is no caption file ${captions.file}`,
          help: 'put it there, correct the path, or leave captions: out',
        };
    }
  },
});
