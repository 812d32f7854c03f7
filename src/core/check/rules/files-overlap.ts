import { placeOf } from '../../model/index.ts';
import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const TWO = (start: string) =>
  replaceIn(
    'recordings/chain.yaml',
    '  - file: media/chain.mp4\n',
    `  - file: media/chain-1.mp4\n    start: "01:00:00:00"\n  - file: media/chain-2.mp4\n    start: "${start}"\n`,
    { media: { 'media/chain-1.mp4': 300.3, 'media/chain-2.mp4': 299.7 } },
  );

export default rule({
  id: 'files-overlap',
  severity: 'warning',
  why: 'Either the files are in the wrong order or a clock was reset: every time after this place may be off.',
  bad: TWO('01:04:50:00'),
  says: '6:12 media/chain-2.mp4 starts 0:00:10.01 before the previous file ends',
  good: TWO('01:05:00:00'),

  *recording({ recordings }) {
    for (const recording of recordings)
      for (const [index, { file, overlap }] of recording.files.entries()) {
        const written = recording.written.files[index]?.start;
        // Cameras that stamp every file alike are common; only a label somebody wrote is held against the order.
        if (overlap === 0 || written === undefined) continue;
        yield {
          place: placeOf(recording, 'files', index, 'start'),
          message: `${file} starts ${printClockTime(overlap)} before the previous file ends`,
          help: 'put the files in shooting order, or correct the start timecode; until then it follows the previous one',
        };
      }
  },
});
