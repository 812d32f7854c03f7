import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { cues, first, quoteWords, recordingsWithCaptions } from './captions.ts';

export default rule({
  id: 'caption-overlap',
  severity: 'warning',
  why: 'Two captions at once push each other about, and neither is read.',
  bad: cues('00:12.000 --> 00:16.000\nMind the spring.\n\n00:15.000 --> 00:18.000\nIt jumps.'),
  says: '6:1 "It jumps." begins 0:00:01 before the previous caption ends',
  good: cues(
    '00:12.000 --> 00:16.000 line:0\nMind the spring.\n\n00:15.000 --> 00:18.000\nIt jumps.\n\n00:18.000 --> 00:20.000\nYes.',
  ),

  *recording(shop) {
    for (const { cues } of recordingsWithCaptions(shop)) {
      const inOrder = cues.toSorted((a, b) => a.at.start - b.at.start);
      yield* first(
        inOrder.flatMap((caption, i) => {
          const ahead = inOrder[i - 1];
          // Set to different spots, they are meant to be there together.
          if (!ahead || caption.at.start >= ahead.at.end || caption.settings !== ahead.settings) return [];
          return [
            {
              place: caption.place,
              message: `${quoteWords(caption.text)} begins ${printClockTime(ahead.at.end - caption.at.start)} before the previous caption ends`,
              help: 'end the first one earlier, or put them at different places on screen',
              see: { place: ahead.place, note: 'the caption ahead' },
            },
          ];
        }),
        'captions begin before the previous one ends',
      );
    }
  },
});
