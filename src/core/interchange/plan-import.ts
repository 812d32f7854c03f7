import type { Lesson, Recording, Shop } from '../model/index.ts';
import { lessonTimes } from '../programme/index.ts';
import { plural } from '../read/index.ts';
import {
  common,
  diffInWords,
  type EditList,
  editList,
  type NamedPart,
  ok,
  type Parsed,
  putBack,
  range,
  type Ticks,
  withoutOverlaps,
} from '../time/index.ts';
import { type Plain, setYaml, setYamlList } from '../write/index.ts';
import type { Imported } from './imported.ts';
import { mergeCaptions } from './merge-captions.ts';
import { mergeMarks } from './merge-marks.ts';
import { momentText } from './moment-text.ts';

/** A content file with its new text. */
export interface PlannedText {
  /** Path relative to the content folder. */
  readonly file: string;
  readonly text: string;
}

/** What an import would do: texts to write, and that in words. */
export interface ImportPlan {
  readonly texts: readonly PlannedText[];
  readonly words: readonly string[];
}

/**
 * Plans an import into a shop, without touching it: the edit list and captions into the recording, marks into a lesson,
 * merged by id. What the file does not name stays as it is.
 *
 * @param texts content texts as read
 * @param lesson where marks go; left out: the one lesson of the recording, or a new one
 */
export function planImport(
  imported: Imported,
  recording: Recording,
  shop: Shop,
  texts: ReadonlyMap<string, string>,
  lesson?: Lesson,
): Parsed<ImportPlan> {
  const made = new Map<string, string>();
  const words: string[] = [];
  const file = recording.origin.place.file;
  const precision = imported.precision ?? 1;
  if (imported.edit) {
    const edit = keepNearPoints(imported.edit, recording, precision);
    const next = withEdit(texts.get(file) ?? '', edit, recording);
    if (!next.ok) return next;
    made.set(file, next.value);
    words.push(...editInWords(edit, recording, shop));
  }
  if (imported.captions) {
    const path = captionPath(recording);
    const { text, said } = mergeCaptions(imported, recording);
    if (text !== undefined) made.set(path, text);
    words.push(said);
    if (text !== undefined && recording.written.captions !== path) {
      const named = setYaml(made.get(file) ?? texts.get(file) ?? '', ['captions'], path);
      if (!named.ok) return named;
      made.set(file, named.value);
    }
  }
  if (imported.marks && imported.marks.length > 0) {
    const merged = mergeMarks(imported.marks, precision, recording, shop, texts, lesson);
    if (!merged.ok) return merged;
    made.set(merged.value.file, merged.value.text);
    words.push(...merged.value.words);
  }
  const changed = [...made]
    .filter(([path, text]) => texts.get(path) !== text)
    .map(([path, text]) => ({ file: path, text }));
  return ok({ texts: changed, words });
}

/** The edit list with every point that is there already, within the precision of the file, as it was. */
function keepNearPoints(edit: EditList, { entries }: Recording, precision: number): EditList {
  const near = (points: readonly Ticks<'recording'>[], at: Ticks<'recording'>) =>
    points.find((point) => Math.abs(point - at) < precision) ?? at;
  const ins = entries.map(({ start }) => start);
  const outs = entries.map(({ end }) => end);
  return editList(edit.map(({ start, end }) => range(near(ins, start), near(outs, end))));
}

/** What of the entries stays keeps its camera and the texts of its points; only what differs is written anew. */
function withEdit(text: string, edit: EditList, recording: Recording): Parsed<string> {
  const kept = edit.reduce<EditList>(putBack, common(withoutOverlaps(recording.entries), edit));
  const entries = kept.map(
    ({ start, end, angle, inText, outText }): Plain => ({
      in: inText ?? momentText(start, recording),
      out: outText ?? momentText(end, recording),
      ...(angle !== undefined && { angle }),
    }),
  );
  return setYamlList(text, ['edit'], entries);
}

function editInWords(edit: EditList, recording: Recording, shop: Shop): string[] {
  const parts = shop.lessons
    .filter((lesson) => lesson.recording === recording.id)
    .flatMap((lesson) => lessonTimes(lesson, recording).chapters)
    .flatMap(({ chapter, recording: at, steps }): NamedPart[] => [
      { name: `chapter "${chapter.title}"`, at },
      ...steps.map(({ step, recording: inner }) => ({ name: `step "${step.title}"`, at: inner })),
    ]);
  const lines = recording.length === undefined && !recording.edited ? [] : diffInWords(recording.edit, edit, parts);
  const head = `the edit list of ${recording.id} keeps ${plural(edit.length, 'range')}`;
  return lines.length > 0 ? [head, ...lines] : [`${head}${recording.edited ? ', as before' : ''}`];
}

/** A WebVTT file that is named already, or a new one beside the footage. */
function captionPath({ id, captions }: Recording): string {
  return captions && /\.vtt$/i.test(captions.file) ? captions.file : `media/${id}.vtt`;
}
