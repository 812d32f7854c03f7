import type { Lesson, Recording } from '../../model/index.ts';
import { entriesOf } from '../../programme/index.ts';
import { plural } from '../../read/index.ts';
import {
  type EditList,
  fail,
  lastUpTo,
  ok,
  type Parsed,
  putBack,
  type Range,
  range,
  without,
} from '../../time/index.ts';
import { brief, type Imported, MOST_TEXT } from '../imported.ts';
import { headingMarks } from './heading-marks.ts';
import { type PaperMarks, readMarks } from './paper-marks.ts';
import { isCutOut, type PaperWord, paperWords } from './paper-words.ts';
import { type PlacedWords, placeWords } from './place-words.ts';

/**
 * Reads a paper edit that was handed back: what is to be cut, what is to be kept again, and where chapters and steps
 * begin. Of what was cut by the time it was printed only what was marked otherwise since then is changed.
 *
 * @param lessons that its chapters and steps may go into
 */
export function readPaperEdit(text: string, recording: Recording, lessons: readonly Lesson[] = []): Parsed<Imported> {
  if (text.length > MOST_TEXT) return fail('the file is too long for a paper edit', 'take the paper of one recording');
  const spoken = paperWords(recording);
  if ((recording.captions?.cues.length ?? 0) === 0)
    return fail(
      `${recording.id} has no captions, and so no words that a paper could mark`,
      'import or make the captions first that the paper was printed from',
    );
  const marks = readMarks(text, recording);
  if (marks.recording !== undefined && marks.recording !== recording.id)
    return fail(
      `this is a paper edit of "${marks.recording}", not of ${recording.id}`,
      `name the recording that it is of: --into ${marks.recording}`,
    );
  if (marks.words.length === 0 && marks.headings.length === 0)
    return fail('no words and no steps stand in the file', 'a paper edit is written by export --to paper-edit');
  const placed = placeWords(marks, spoken);
  if (marks.words.length > 0 && placed.first.every((one) => one < 0))
    return fail(
      `none of its words are said in ${recording.id}`,
      'check that it is of this recording, and that captions are those that it was printed from',
    );
  const edit = editWanted(marks, placed, spoken, recording);
  if (!edit.ok) return edit;
  const found = headingMarks(marks, placed, spoken, recording, lessons);
  tellRest(marks, placed, spoken);
  return ok({ ...(edit.value && { edit: edit.value }), ...(found && { marks: found }), notes: marks.notes.all() });
}

const KEEP = 1;
const CUT = 2;

/** What the paper wants of each word of the recording; 0 where it says nothing. */
function wishes({ words }: PaperMarks, { first, behind, between }: PlacedWords, count: number): Uint8Array {
  const found = new Uint8Array(count);
  const wish = (from: number, to: number, wanted: string) => {
    if (wanted === 'open') return;
    // Of a word that stands for several, or twice in the file, no part is cut that is kept elsewhere.
    for (let i = from; i < to; i++) if (found[i] !== KEEP) found[i] = wanted === 'cut' ? CUT : KEEP;
  };
  words.forEach(({ wanted }, i) => {
    if ((first[i] ?? -1) >= 0) wish(first[i] ?? 0, behind[i] ?? 0, wanted);
  });
  for (const { from, to, like } of between) wish(from, to, like.wanted);
  return found;
}

/** The edit list with what was marked: nothing where no mark changes it. */
function editWanted(
  marks: PaperMarks,
  placed: PlacedWords,
  spoken: readonly PaperWord[],
  recording: Recording,
): Parsed<EditList | undefined> {
  const wanted = wishes(marks, placed, spoken.length);
  let edit = entriesOf(recording);
  const before = edit;
  const now = spoken.map((word) => (isCutOut(word, before) ? CUT : KEEP));
  const then = spoken.map((word, i) => wasCut(word, marks) ?? now[i]);
  const isNew = (i: number) => wanted[i] !== 0 && wanted[i] !== then[i] && wanted[i] !== now[i];
  let changed = false;
  for (let i = 0; i < spoken.length; i++) {
    if (!isNew(i)) continue;
    const [from, what] = [i, wanted[i]];
    let last = i;
    // A run goes over what is as it should be already.
    for (let next = i + 1; wanted[next] === what && (isNew(next) || now[next] === what); next++)
      if (isNew(next)) last = next;
    const run = runOf(spoken[from], spoken[last]);
    if (run) edit = what === CUT ? without(edit, [run]) : putBack(edit, run);
    changed ||= run !== undefined;
    i = last;
  }
  if (!changed) return ok(undefined);
  if (recording.length === undefined)
    return fail(
      `how long ${recording.id} is cannot be told: its camera files are missing or cannot be read`,
      'put the camera files in their place; liftside check names them',
    );
  if (edit.length === 0)
    return fail('that would leave nothing of the recording in the programme', 'keep some words at least');
  return ok(asWritten(edit, recording));
}

/** What is kept in whole frames, with the points that were not moved where the file has them. */
function asWritten(edit: EditList, { entries }: Recording): EditList {
  const ins = new Map(entries.map(({ start, inText }) => [inText, start]));
  const outs = new Map(entries.map(({ end, outText }) => [outText, end]));
  return edit.map(({ start, end, inText, outText }) =>
    range(ins.get(inText ?? '') ?? start, outs.get(outText ?? '') ?? end),
  );
}

function runOf(first: PaperWord | undefined, last: PaperWord | undefined): Range<'recording'> | undefined {
  if (!first || !last || last.at.end <= first.at.start) return undefined;
  return range(first.at.start, last.at.end);
}

/** What the paper said of a word when it was printed, where it tells. */
function wasCut({ at }: PaperWord, { printed }: PaperMarks): number | undefined {
  if (!printed) return undefined;
  return (lastUpTo(printed, at.start, ([start]) => start)?.[1] ?? 0) > at.start ? CUT : KEEP;
}

/** What the file says that cannot be carried, and what of the recording it leaves out. */
function tellRest({ words, notes }: PaperMarks, placed: PlacedWords, spoken: readonly PaperWord[]): void {
  const { first, behind, lost, differing } = placed;
  for (const { line, from, to } of lost)
    notes.add(
      `line ${line}: "${brief(
        words
          .slice(from, to)
          .map(({ text }) => text)
          .join(' '),
      )}" is not said near that time`,
    );
  const unplaced = new Set(lost.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i)));
  const added = words.filter(({ run }, i) => run > 0 && (first[i] ?? -1) < 0 && !unplaced.has(i));
  for (const { text, line } of added) notes.add(`line ${line}: "${brief(text)}" is marked, and is not said there`);
  if (differing > 0) notes.add(`${plural(differing, 'corrected word')}: captions stay as they are`);
  const mentioned = new Uint8Array(spoken.length);
  words.forEach((_, i) => {
    if ((first[i] ?? -1) >= 0) mentioned.fill(1, first[i], behind[i]);
  });
  const missing = mentioned.filter((one) => one === 0).length;
  if (missing > 0) notes.add(`${plural(missing, 'word')} that the file leaves out: as before`);
}
