import { resolve } from 'node:path';
import { type Exported, FORMATS, type Format } from '../../core/interchange/index.ts';
import type { Lesson, Recording, Shop } from '../../core/model/index.ts';
import { type LessonTimes, lessonTimes } from '../../core/programme/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { fail, type Parsed } from '../../core/time/index.ts';
import { command, EXIT } from './command.ts';
import { SHELL_EXPORTERS } from './exporters.ts';
import { writeOutput } from './write-output.ts';

export default command({
  name: 'export',
  summary: 'captions, chapters, edit lists, calendar entries and papers in open formats',
  args: ['<lesson|recording|class>'],
  options: [
    {
      name: 'to',
      value: 'FORMAT',
      choices: [...FORMATS, ...SHELL_EXPORTERS].map(({ id }) => id),
      help: 'the format',
    },
    { name: 'paper', value: 'SIZE', choices: ['a4', 'letter'], help: 'of a PDF; the shop’s own paper when left out' },
    {
      name: 'output',
      short: 'o',
      value: 'FILE',
      help: 'where to write; when left out, standard output, and for a paper ID.PAPER.pdf where you are',
    },
  ],

  async run([id = ''], flags, context) {
    const { out, say, cwd, load, now } = context;
    const wanted = flags.text('to');
    const output = flags.text('output');
    const shell = SHELL_EXPORTERS.find((one) => one.id === wanted);
    if (shell) return shell.run(id, resolve(cwd, output ?? `${id}.${shell.extension}`), context, flags);
    const format = FORMATS.find((one) => one.id === wanted);
    if (!format) {
      say(
        `--to names a format:\n${[...FORMATS, ...SHELL_EXPORTERS].map((one) => `  ${one.id.padEnd(18)} ${one.title}`).join('\n')}`,
      );
      return EXIT.callIsWrong;
    }
    const { shop } = await load();
    if (shop.broken.has(id)) {
      say(`"${id}" cannot be read whole; liftside check says why`);
      return EXIT.contentHasErrors;
    }
    const made = exportOne(format, id, shop, now());
    if (!made.known) {
      say(made.words);
      return EXIT.callIsWrong;
    }
    if (!made.result.ok) {
      say(`${made.result.problem}\n${made.result.help}`);
      return EXIT.contentHasErrors;
    }
    const { text, notes } = made.result.value;
    for (const note of notes) say(note);
    if (output === undefined) out(text);
    else {
      const file = resolve(cwd, output);
      await writeOutput(file, text);
      say(`wrote ${output}`);
    }
    return EXIT.fine;
  },
});

type Made =
  | { readonly known: true; readonly result: Parsed<Exported> }
  | { readonly known: false; readonly words: string };

function exportOne(format: Format, id: string, shop: Shop, now: Date): Made {
  const made = (result: Parsed<Exported>): Made => ({ known: true, result });
  if (format.of === 'class') {
    const shopClass = shop.classes.find((one) => one.id === id);
    return shopClass ? made(format.write(shopClass, shop, now)) : unknown('class', id, shop.classes);
  }
  const lesson = shop.lessons.find((one) => one.id === id);
  const recording = shop.recordings.find((one) => one.id === id) ?? recordingOf(lesson, shop);
  if (format.of === 'recording') {
    if (!recording)
      return lesson ? made(withoutRecording(lesson)) : unknown('recording', id, [...shop.recordings, ...shop.lessons]);
    return made(format.write(recording, lessonsOf(recording, shop), shop));
  }
  if (lesson) {
    const own = recordingOf(lesson, shop);
    return made(own ? format.write(lessonTimes(lesson, own), shop) : withoutRecording(lesson));
  }
  const users = recording ? lessonsOf(recording, shop) : [];
  const [only] = users;
  if (only && users.length === 1) return made(format.write(only, shop));
  if (recording)
    return {
      known: false,
      words: `${format.id} is of a lesson, and ${users.length === 0 ? 'none uses' : 'several use'} the recording ${id}${users.length > 0 ? `: ${users.map((one) => one.lesson.id).join(', ')}` : ''}`,
    };
  return unknown('lesson', id, shop.lessons);
}

function recordingOf(lesson: Lesson | undefined, shop: Shop): Recording | undefined {
  return shop.recordings.find((one) => one.id === lesson?.recording);
}

function lessonsOf(recording: Recording, shop: Shop): LessonTimes[] {
  return shop.lessons.filter((one) => one.recording === recording.id).map((one) => lessonTimes(one, recording));
}

function withoutRecording(lesson: Lesson): Parsed<Exported> {
  return fail(
    `the lesson ${lesson.id} has no recording "${lesson.recording}" that can be read`,
    'liftside check says why',
  );
}

function unknown(what: string, id: string, things: readonly { readonly id: string }[]): Made {
  const ids = [...new Set(things.map((one) => one.id))];
  return { known: false, words: `no ${what} "${id}": ${didYouMean(id, ids)}` };
}
