import type { Cue, Recording } from '../../model/index.ts';
import { entriesOf, type LessonTimes } from '../../programme/index.ts';
import { plural } from '../../read/index.ts';
import { fail, ok, type Parsed, printClockTime, TICKS_PER_SECOND } from '../../time/index.ts';
import type { Exported } from '../format.ts';
import { BARE_REST, isCutOut, type PaperWord, paperTime, paperWords } from './paper-words.ts';

/** Characters of a line of words, without its time: with it, a page of A4 or Letter holds it in a type of 11 points. */
const WIDTH = 66;
/** From here on a line ends with its sentence. */
const ENOUGH = 36;
const MS = TICKS_PER_SECOND / 1000;

/** Between what explains, what is said, and what was cut when it was printed. */
export const RULE = '='.repeat(72);
/** What a paper edit begins with. */
export const PAPER_EDIT = 'PAPER EDIT';

/** Words of a recording with their times, to be printed, marked in any text editor and handed back. */
export function writePaperEdit(recording: Recording, lessons: readonly LessonTimes[]): Parsed<Exported> {
  const words = paperWords(recording);
  if ((recording.captions?.cues.length ?? 0) === 0)
    return fail(
      `${recording.id} has no captions, and so no words to mark`,
      `liftside transcribe ${recording.id} makes them, or name a WebVTT or SRT file under captions:`,
    );
  const kept = entriesOf(recording);
  const cut = words.map((word) => isCutOut(word, kept));
  const lines = body(words, cut, headingsOf(recording, lessons), recording);
  const text = [...legend(recording, cut), RULE, '', ...lines, '', RULE, ...asPrinted(words, cut)].join('\n');
  const notes =
    lessons.length > 1
      ? [`${plural(lessons.length, 'lesson')} use ${recording.id}: their steps stand as remarks, with #`]
      : [];
  return ok({ text: `${text}\n`, notes });
}

function legend({ id, title }: Recording, cut: readonly boolean[]): string[] {
  const left = cut.filter((one) => one).length;
  return [
    `${PAPER_EDIT} of ${title.replaceAll(/\s+/g, ' ').trim()}`,
    `Recording: ${id}`,
    `${plural(cut.length, 'word and rest', 'words and rests')}, ${left} of them cut.`,
    '',
    'How to mark. Each line of words begins with the time of its first word.',
    'What stands between [- and -] is cut. All other words are kept.',
    '',
    '  To cut words          put [- before the first of them and -] behind the',
    '                        last: within a line, or over many lines.',
    '  To keep cut words     take both signs away, or put [+ and +] around them.',
    '  A whole line          write [cut] or [keep] before its time.',
    '  A new step            write on a line of its own, above its first word:',
    '                          step: Loosen the nut',
    '                        Break a line in two where it begins in the middle.',
    '  A new chapter         the same, with chapter: in place of step:',
    '',
    'Words may be corrected, lines broken and joined, pages left out: words are',
    'found again by their time and their text. What is not in the file stays as it',
    'is. Captions and titles are not changed by it. Lines that begin with # are',
    'remarks. Save it as plain text, then see what it would do, and do it:',
    '',
    `  liftside import FILE --into ${id} --dry-run`,
    `  liftside import FILE --into ${id}`,
    '',
  ];
}

interface Heading {
  readonly at: number;
  readonly text: string;
}

function headingsOf(recording: Recording, lessons: readonly LessonTimes[]): Heading[] {
  const several = lessons.length > 1;
  return lessons
    .flatMap(({ lesson, chapters }) => {
      const row = (kind: string, title: string, cue: Cue | undefined): Heading[] => {
        if (!cue) return [];
        const words = `${paperTime(cue.at, recording)}  ${kind}: ${title.replaceAll(/\s+/g, ' ')}`;
        return [{ at: cue.at, text: several ? `# ${words} (${lesson.id})` : words }];
      };
      return chapters.flatMap(({ chapter, steps }) => [
        ...row('chapter', chapter.title, chapter.cue),
        ...steps.flatMap(({ step }) => row('step', step.title, step.cue)),
      ]);
    })
    .toSorted((a, b) => a.at - b.at);
}

/** What is said, line by line, with chapters and steps between. */
function body(
  words: readonly PaperWord[],
  cut: readonly boolean[],
  headings: readonly Heading[],
  recording: Recording,
): string[] {
  const lines: string[] = [];
  let row: { word: PaperWord; cut: boolean }[] = [];
  let long = 0;
  let next = 0;
  const end = () => {
    const [first] = row;
    if (first) lines.push(`${paperTime(first.word.at.start, recording)}  ${marked(row)}`);
    [row, long] = [[], 0];
  };
  const headingsUpTo = (moment: number) => {
    // A cue that was set at the frame of a word comes before the word.
    const from = next;
    while ((headings[next]?.at ?? Number.POSITIVE_INFINITY) < moment + MS) next++;
    if (next === from) return;
    end();
    // Blank lines, so that an editor that fills paragraphs leaves headings alone.
    for (const { text } of headings.slice(from, next))
      lines.push(...(lines.at(-1) === '' || lines.length === 0 ? [] : ['']), text, '');
  };
  words.forEach((word, i) => {
    headingsUpTo(word.at.start);
    const text = plain(word);
    const alone = word.bare === BARE_REST;
    const ended = /[.!?…。？！]["'”’)]*$/u.test(row.at(-1)?.word.text ?? '');
    if (alone || long + text.length > WIDTH || (ended && long >= ENOUGH)) end();
    row.push({ word, cut: cut[i] ?? false });
    long += text.length + 1;
    if (alone) end();
  });
  end();
  headingsUpTo(Number.POSITIVE_INFINITY);
  return lines;
}

/** The words of a line with the signs round what is cut, all closed at its end. */
function marked(row: readonly { word: PaperWord; cut: boolean }[]): string {
  return row
    .map(({ word, cut }, i) => {
      const opens = cut && !row[i - 1]?.cut ? '[-' : '';
      const closes = cut && !row[i + 1]?.cut ? '-]' : '';
      const text = i === 0 ? plain(word).replace(/^(step|chapter)\s*:/i, '$1') : plain(word);
      return `${opens}${text}${closes}`;
    })
    .join(' ');
}

/** A word in which nothing reads as a sign or a time of the paper. */
function plain({ text, bare }: PaperWord): string {
  if (bare === BARE_REST) return text;
  return text
    .replaceAll('[', '(')
    .replaceAll(']', ')')
    .replaceAll(/(\d)[:;](?=\d)/g, '$1.');
}

/** What was cut when it was printed, so that a mark is told from what was there. */
function asPrinted(words: readonly PaperWord[], cut: readonly boolean[]): string[] {
  const runs: string[] = [];
  for (let i = 0; i < words.length; i++) {
    if (!cut[i]) continue;
    const from = i;
    while (cut[i + 1]) i++;
    const clock = (moment: number | undefined) => printClockTime(Math.floor((moment ?? 0) / MS) * MS);
    runs.push(`${clock(words[from]?.at.start)}-${i + 1 < words.length ? clock(words[i + 1]?.at.start) : 'end'}`);
  }
  return [
    'AS PRINTED: leave these lines as they are. They say what was cut by then, so',
    'that what is cut in the meantime stays cut.',
    ...(runs.length > 0 ? runs.map((run) => `cut ${run}`) : ['cut nothing']),
  ];
}
