import { readFile, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import {
  clockOf,
  type FileClock,
  findImportFormat,
  IMPORT_FORMATS,
  mergeSpecTable,
  type PlannedText,
  planImport,
} from '../../core/interchange/index.ts';
import type { Lesson, Machine, Recording, Shop } from '../../core/model/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { fail, isoDay, ok, type Parsed } from '../../core/time/index.ts';
import { decodeText, saveTexts, type TextChange } from '../files/index.ts';
import { command, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';
import { importDay } from './import-day.ts';
import { importMapped } from './import-mapped.ts';
import { patch } from './patch.ts';

/** Longest file that is taken in, bytes. */
const MOST_BYTES = 64_000_000;

export default command({
  name: 'import',
  summary:
    'takes in edit lists, chapters, captions and spec tables that other programs wrote, paper edits marked by hand, and what a class led from a package took',
  args: ['<file>'],
  options: [
    { name: 'into', value: 'ID', help: 'the recording, lesson, machine or class' },
    {
      name: 'as',
      value: 'FORMAT',
      choices: IMPORT_FORMATS.map(({ id }) => id),
      help: 'what the file is, where it cannot be told',
    },
    {
      name: 'clock',
      value: 'CLOCK',
      choices: ['recording', 'programme'],
      help: 'whose time the file tells: of the uncut recording or of the edited programme',
    },
    {
      name: 'mapping',
      value: 'FILE',
      help: 'how a JSON transcript of any shape tells its entries, times and words: YAML with JSONPaths',
    },
    { name: 'replace', help: 'of a class: take the place of what is written down of it, whatever it says' },
    { name: 'dry-run', help: 'show what would change, write nothing' },
  ],

  async run([file = ''], flags, { load, out, say, cwd, content, now }) {
    const taken = await fileText(resolve(cwd, file), file);
    if (!taken.ok) {
      say(`${taken.problem}\n${taken.help}`);
      return EXIT.callIsWrong;
    }
    const text = taken.value;
    const loaded = await load();
    const { shop, texts } = loaded;
    const shopClass = shop.classes.find(({ id }) => id === flags.text('into'));
    if (shopClass)
      return importDay({ ...{ shopClass, file, text, content, out, say, today: isoDay(now()) }, loaded, flags });
    const machine = shop.machines.find(({ id }) => id === flags.text('into'));
    if (machine) return importSpecs(machine, file, text, texts, flags, content, out, say);
    const target = findTarget(flags.text('into') ?? '', shop);
    if ('words' in target) {
      say(target.words);
      return EXIT.callIsWrong;
    }
    if (flags.has('mapping')) return importMapped(target.recording, file, text, flags, { content, cwd, out, say });
    const wanted = flags.text('as');
    const chosen = IMPORT_FORMATS.find(({ id }) => id === wanted);
    const format = chosen ? { ok: true as const, value: chosen } : findImportFormat(basename(file), text);
    if (!format.ok) {
      say(`${format.problem}\n${format.help}`);
      return EXIT.callIsWrong;
    }
    const { recording, lesson } = target;
    const clockNamed = (name: string | undefined): FileClock =>
      name === 'programme' ? { clock: 'programme', edit: recording.edit } : { clock: 'recording' };
    let clock = clockNamed(flags.text('clock') ?? format.value.clock);
    const users = lesson ? [lesson] : shop.lessons.filter((one) => one.recording === recording.id);
    let read = format.value.read(basename(file), text, recording, clock, users);
    const guessed =
      !flags.has('clock') && read.ok && read.value.captions && clockOf(read.value.captions, recording) !== clock.clock;
    if (guessed) {
      clock = clockNamed('programme');
      read = format.value.read(basename(file), text, recording, clock);
    }
    if (!read.ok) {
      say(`${file}: ${read.problem}\n${read.help}`);
      return EXIT.contentHasErrors;
    }
    const plan = planImport(read.value, recording, shop, texts, lesson);
    if (!plan.ok) {
      say(`${plan.problem}\n${plan.help}`);
      return EXIT.contentHasErrors;
    }
    say(`${file}: ${format.value.title}${format.value.clock ? `, times of the ${clock.clock}` : ''}`);
    if (guessed) say('it ends where the edited programme does; --clock recording where it is of the uncut recording');
    for (const words of plan.value.words) say(words);
    for (const note of read.value.notes) say(`not carried: ${note}`);
    const changes = await Promise.all(plan.value.texts.map((planned) => changeOf(planned, texts, content)));
    if (changes.length === 0) {
      say('nothing changes');
      return EXIT.fine;
    }
    if (flags.has('dry-run')) {
      for (const change of changes) out(patch(change));
      return EXIT.fine;
    }
    const saved = await saveTexts(content, changes);
    if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
    for (const path of saved.files) say(`wrote ${path}`);
    return EXIT.fine;
  },
});

/** A spreadsheet merged into the spec table of a machine: the difference first, then the file. */
async function importSpecs(
  machine: Machine,
  file: string,
  text: string,
  texts: ReadonlyMap<string, string>,
  flags: Flags,
  content: string,
  out: (text: string) => void,
  say: (text: string) => void,
): Promise<ExitCode> {
  const path = `specs/${machine.id}.yaml`;
  const was = texts.get(path) ?? '';
  let rows: string[][];
  try {
    rows = parse(text, { bom: true, relax_column_count: true, skip_empty_lines: true });
  } catch (error) {
    say(`${file} is not CSV: ${error instanceof Error ? error.message : 'it cannot be read'}`);
    return EXIT.callIsWrong;
  }
  const merged = mergeSpecTable(was, machine, rows);
  if (!merged.ok) {
    say(`${file}: ${merged.problem}\n${merged.help}`);
    return EXIT.contentHasErrors;
  }
  for (const note of merged.value.notes) say(note);
  const change = { file: path, text: merged.value.text, was };
  if (change.text === was) {
    say('nothing changes');
    return EXIT.fine;
  }
  out(patch(change));
  if (flags.has('dry-run')) return EXIT.fine;
  const saved = await saveTexts(content, [change]);
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
  say(`wrote ${path}`);
  return EXIT.fine;
}

/** The text of a file, which is not opened where it is too long: no format here has such files. */
async function fileText(path: string, name: string): Promise<Parsed<string>> {
  const known = await stat(path).catch(() => undefined);
  if (!known?.isFile()) return fail(`there is no file ${name}`, 'name a file to read');
  if (known.size > MOST_BYTES)
    return fail(
      `${name} has ${Math.round(known.size / 1e6)} MB, more than the ${MOST_BYTES / 1e6} MB that are read`,
      'take the edit list, chapters or transcript of one recording; footage goes under files: of a recording',
    );
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) => {
    throw new OutsideFailure(`${name} could not be read: ${error.message}`, 'give this user the right to read it');
  });
  return ok(decodeText(bytes).text);
}

type Target = { readonly recording: Recording; readonly lesson?: Lesson } | { readonly words: string };

function findTarget(id: string, shop: Shop): Target {
  if (id === '') return { words: '--into names a recording, a lesson, a machine or a class' };
  const recording = shop.recordings.find((one) => one.id === id);
  if (recording) return { recording };
  const lesson = shop.lessons.find((one) => one.id === id);
  const own = shop.recordings.find((one) => one.id === lesson?.recording);
  if (lesson && own) return { recording: own, lesson };
  if (lesson)
    return {
      words: `the lesson ${id} has no recording "${lesson.recording}" that can be read; liftside check says why`,
    };
  if (shop.broken.has(id)) return { words: `"${id}" cannot be read; liftside check says why` };
  const ids = [...new Set([...shop.recordings, ...shop.lessons].map((one) => one.id))];
  return { words: `no recording or lesson "${id}": ${didYouMean(id, ids)}` };
}

/** With what the file holds now, so that a change by somebody else in the meantime is seen. */
async function changeOf(
  { file, text }: PlannedText,
  texts: ReadonlyMap<string, string>,
  content: string,
): Promise<TextChange> {
  const was = texts.get(file) ?? (await readFile(join(content, file)).catch(() => undefined));
  return { file, text, was };
}
