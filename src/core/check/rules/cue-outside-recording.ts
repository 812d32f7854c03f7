import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { passagesOf, recordingOf } from './find.ts';

export default rule({
  id: 'cue-outside-recording',
  severity: 'error',
  why: 'Anybody who opens this step would be shown nothing.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:10:30" />'),
  says: '10:1 the cue of "Tighten" at 0:10:30 lies past the end of chain, which lasts 0:10:00',
  good: SOUND,

  *lesson(shop) {
    for (const lesson of shop.lessons) {
      const recording = recordingOf(shop, lesson);
      if (recording?.length === undefined) continue;
      for (const { title, cue } of passagesOf(lesson)) {
        const last = cue && (cue.until ?? cue.at);
        if (!cue || last === undefined || (cue.at < recording.length && last <= recording.length)) continue;
        yield {
          place: cue.place,
          message: `the cue of "${title}" at ${printClockTime(last)} lies past the end of ${recording.id}, which lasts ${printClockTime(recording.length)}`,
          help: 'move the cue, or name the camera file that is missing from the recording',
        };
      }
    }
  },
});
