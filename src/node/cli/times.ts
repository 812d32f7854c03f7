import { type LessonTimes, lessonTimes, lessonTimesJson } from '../../core/programme/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { printClockTime, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'times',
  summary: 'chapter and step times of a lesson, in programme time',
  args: ['<lesson>'],
  options: [{ name: 'json', help: 'one JSON document, times in seconds' }],

  async run([id = ''], flags, { load, out, say }) {
    const { shop } = await load();
    const lesson = shop.lessons.find((l) => l.id === id);
    if (!lesson) {
      if (shop.broken.has(id)) {
        say(`the lesson "${id}" cannot be read; liftside check says why`);
        return EXIT.contentHasErrors;
      }
      const ids = shop.lessons.map((l) => l.id);
      say(`no lesson "${id}": ${didYouMean(id, ids)}`);
      return EXIT.callIsWrong;
    }
    const recording = shop.recordings.find((r) => r.id === lesson.recording);
    if (!recording) {
      say(`the lesson "${id}" has no recording "${lesson.recording}" that can be read; liftside check says why`);
      return EXIT.contentHasErrors;
    }
    const times = lessonTimes(lesson, recording);
    out(flags.has('json') ? JSON.stringify(lessonTimesJson(times), null, 2) : timesTable(times));
    return EXIT.fine;
  },
});

/** Times to the whole second, as a person reads them off. */
function timesTable({ lesson, recording, length, chapters }: LessonTimes): string {
  const time = (moment: number) => printClockTime(Math.round(moment / TICKS_PER_SECOND) * TICKS_PER_SECOND).padStart(8);
  const row = (start: number, end: number, title: string) => `${time(start)} ${time(end - start)}  ${title}`;
  const uncut = recording.length === undefined ? '' : `, from ${time(recording.length).trim()} recorded`;
  return [
    `${lesson.title}: ${time(length).trim()}${uncut}`,
    '   start   length',
    ...chapters.flatMap(({ chapter, at, steps }) => [
      row(at.start, at.end, chapter.title),
      ...steps.map(({ step, at: place }) => row(place.start, place.end, `  ${step.title}`)),
    ]),
  ].join('\n');
}
