import { placeOf } from '../../model/index.ts';
import { editList, invert, lengthOf, parseMoment, printClockTime, range, within } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const TWO = (start: string) =>
  replaceIn(
    'recordings/chain.yaml',
    '  - file: media/chain.mp4\n',
    `  - file: media/chain-1.mp4\n    start: "01:00:00:00"\n  - file: media/chain-2.mp4\n    start: "${start}"\n`,
    { media: { 'media/chain-1.mp4': 180.18, 'media/chain-2.mp4': 400.4 } },
  );

export default rule({
  id: 'edit-over-gap',
  severity: 'info',
  why: 'Where no camera ran there is nothing to show; the programme jumps over it.',
  bad: TWO('01:03:20:00'),
  says: '9:5 the range runs over 0:00:20.02 where no camera ran',
  good: TWO('01:03:00:00'),

  *recording({ recordings }) {
    for (const recording of recordings) {
      const { files, length, written, startFrame, rate } = recording;
      if (length === undefined) continue;
      const gaps = invert(editList(files.map(({ span }) => span)), length);
      for (const [index, entry] of (written.edit ?? []).entries()) {
        const labelling = { startFrame, ...(rate ? { rate } : {}) };
        const [start, end] = [parseMoment(entry.in, labelling), parseMoment(entry.out, labelling)];
        if (!start.ok || !end.ok || end.value <= start.value) continue;
        const empty = within(gaps, range(start.value, end.value)).reduce((sum, gap) => sum + lengthOf(gap), 0);
        if (empty > 0)
          yield {
            place: placeOf(recording, 'edit', index),
            message: `the range runs over ${printClockTime(empty)} where no camera ran`,
            help: 'end it where the camera file ends, and begin another where the next one starts',
          };
      }
    }
  },
});
