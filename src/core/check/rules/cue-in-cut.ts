import { placeOf } from '../../model/index.ts';
import { printClockTime, toProgramme } from '../../time/index.ts';
import { startText } from '../remedy.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { timesOf } from './find.ts';

export default rule({
  id: 'cue-in-cut',
  severity: 'error',
  why: 'Anybody who opens this step would be shown another one.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Seat the clip\n<Cue at="0:05:10" until="0:05:50" />'),
  says: '10:1 the cue of "Seat the clip" lies in a cut of chain',
  good: SOUND,

  *lesson(shop) {
    for (const lesson of shop.lessons) {
      const times = timesOf(shop, lesson);
      if (!times?.recording.edited) continue;
      const { recording, chapters } = times;
      const spans = chapters.flatMap(({ chapter, steps, ...span }) => [
        { passage: chapter, ...span },
        ...steps.map(({ step, ...inner }) => ({ passage: step, ...inner })),
      ]);
      for (const { passage, at, recording: span } of spans) {
        const { cut } = toProgramme(recording.edit, span.start);
        if (!cut || !passage.cue || (recording.length !== undefined && span.start >= recording.length)) continue;
        const { cue, title } = passage;
        const builtOn = [placeOf(recording, 'edit')];
        if (at.end <= at.start)
          yield {
            place: cue.place,
            message: `the cue of "${title}" lies in a cut of ${recording.id}`,
            help: 'move the cue, or keep more of the recording',
            builtOn,
          };
        else
          yield {
            severity: 'warning',
            place: cue.place,
            message: `the start of "${title}" lies in a cut of ${recording.id}: its first ${printClockTime(cut.end - span.start)} are not shown`,
            help: `move the cue to ${startText(cut.end)}, or keep more of the recording`,
            ...(cue.atPlace && {
              fix: {
                title: `move the cue to ${startText(cut.end)}`,
                sure: false,
                edits: [{ place: cue.atPlace, text: `at="${startText(cut.end)}"` }],
              },
            }),
            builtOn,
          };
      }
    }
  },
});
