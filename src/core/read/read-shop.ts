import type { z } from 'zod';
import { ENGLISH } from '../locale/index.ts';
import {
  type Actual,
  actualSchema,
  type ClassQuestions,
  type Correction,
  classSchema,
  type Diagnostic,
  type FileFacts,
  kitSchema,
  type Lesson,
  type LessonParts,
  type Machine,
  questionsSchema,
  type Read,
  type Recording,
  type Shop,
  type ShopClass,
  type ShopInfo,
  shopSchema,
  startOf,
  type Translation,
  type Words,
  wordsSchema,
} from '../model/index.ts';
import { groupBy, must } from '../time/index.ts';
import { ASTRAY, CONTENT_FILES, idOf, isContent, whatItIs, whereItBelongs } from './content-files.ts';
import { encodingFault, withoutMark } from './encoding.ts';
import { tell } from './faults.ts';
import { recordingYaml } from './files-named.ts';
import { Points } from './points.ts';
import { readCollections } from './read-collections.ts';
import { readCorrections } from './read-corrections.ts';
import { readLesson } from './read-lesson.ts';
import { readMachine } from './read-machine.ts';
import { readRecording } from './read-recording.ts';
import { readYaml, type YamlRead } from './read-yaml.ts';
import { type FileRead, KeptReads, type Questions, type Recalls } from './recall.ts';

/** A shop, and everything that was found wrong while reading it. */
export interface ShopRead {
  readonly shop: Shop;
  readonly diagnostics: readonly Diagnostic[];
}

/** Why a file or folder of the content could not be read, and what to do. */
export interface Unreadable {
  readonly reason: string;
  readonly help: string;
}

/** Reads one file out of its text, without byte order mark. */
type Reader<T> = (text: string, points: Points, asking: Questions) => FileRead<T>;

/** A file of which there is one: what it says, also as one thing with its places. */
type Only<T> = Pick<YamlRead<T>, 'value' | 'origin'> & { readonly whole: Partial<T> & Read };

/**
 * All texts of a content folder as one typed shop. Every problem of every file is told; what is sound is kept.
 *
 * @param texts by path relative to the content folder, with `/`
 * @param facts what is known of a file the content names; asked for camera files, captions and the pictures of lessons only
 * @param unreadable files and folders that are there and could not be read, by path
 * @param recalls what was read before and still holds
 */
export function readShop(
  texts: ReadonlyMap<string, string>,
  facts: (file: string) => FileFacts,
  unreadable: ReadonlyMap<string, Unreadable> = new Map(),
  recalls: Recalls = new KeptReads().again(),
): ShopRead {
  const diagnostics: Diagnostic[] = [];
  const broken = new Set<string>();
  const files = [...texts.keys()].toSorted();
  for (const [file, { reason, help }] of unreadable) {
    diagnostics.push(tell('file-unreadable', startOf(file), `${file} cannot be read: ${reason}`, help));
    broken.add(idOf(file) ?? file);
  }
  const recordingById = new Map<string, Recording | undefined>();
  const lessonById = new Map<string, Lesson>();
  const toldOfRecordings = new Map<string, readonly Diagnostic[]>();
  let others: readonly string[] = [];
  const questions: Questions = {
    facts,
    recording: (id) => recordingBy(id),
    recordingOf: (lesson) => recordingBy(lessonById.get(lesson)?.recording ?? ''),
    languages: () => others,
  };
  /** Reads a file, and keeps what is told of it. */
  const read = <T>(file: string, reader: Reader<T>, told = diagnostics): T | undefined => {
    const own = recalls.files(file, texts, questions, (asking) => readFile(file, texts, asking, reader));
    told.push(...own.diagnostics);
    for (const id of own.broken) broken.add(id);
    return own.value;
  };
  /** Read when it is first wanted, so that whoever wants it next, its lesson, has it at hand. */
  const recordingBy = (id: string): Recording | undefined => {
    const file = `recordings/${id}.yaml`;
    if (recordingById.has(id) || !texts.has(file) || !CONTENT_FILES.recording.test(file)) return recordingById.get(id);
    const told: Diagnostic[] = [];
    const reader: Reader<Recording> = (_, { file }, asking) => {
      const yaml = recordingYaml(file, texts, recalls.recordings);
      const { recording: value, diagnostics } = readRecording(id, yaml, asking.facts, asking.languages(''));
      return { diagnostics, broken: [], ...(value && { value }) };
    };
    const recording = read(file, reader, told);
    recordingById.set(id, recording);
    toldOfRecordings.set(file, told);
    if (!recording) broken.add(id);
    return recording;
  };
  /** Reads every file of a kind; one that cannot be read is remembered, so that nobody is told it does not exist. */
  const each = <T>(pattern: RegExp, reader: (id: string) => Reader<T>): T[] =>
    files.flatMap((file) => {
      const id = pattern.exec(file)?.[1];
      if (id === undefined) return [];
      const value = read(file, reader(id));
      if (value === undefined) broken.add(id);
      return value === undefined ? [] : [value];
    });
  const eachYaml = <T>(pattern: RegExp, schema: z.ZodType<T>, what: string) =>
    each(pattern, (id) => (text, points) => {
      const { value, origin, diagnostics, broken } = readYaml(text, points, 0, schema, what);
      return { diagnostics, broken, ...(value !== undefined && { value: { ...value, id, origin } }) };
    });
  /** Of a file that is not there, what an empty one says; nothing is told of it. */
  const only = <T>(file: string, schema: z.ZodType<T>, what: string): Only<T> => {
    const ofText = (text: string, points: Points): FileRead<Only<T>> => {
      const { value, origin, diagnostics, broken } = readYaml(text, points, 0, schema, what);
      const whole = { ...value, origin } as Partial<T> & Read;
      return { value: { origin, whole, ...(value !== undefined && { value }) }, diagnostics, broken };
    };
    const empty = () => ({ ...ofText('', new Points(file, '')), diagnostics: [], broken: [] });
    const found = texts.has(file) ? read(file, ofText) : recalls.files(file, texts, questions, empty).value;
    return found ?? must(empty().value, 'what an empty file says');
  };

  const info = only(CONTENT_FILES.shop, shopSchema, 'the shop');
  if (!texts.has(CONTENT_FILES.shop) && !unreadable.has(CONTENT_FILES.shop))
    diagnostics.push(missing(CONTENT_FILES.shop, 'begin it with name: and the name of the shop'));
  const kit = only(CONTENT_FILES.kit, kitSchema, 'the kit');
  // Under a group's name misspelt stand things that would otherwise be told as unknown, one by one.
  const groups = new Set(Object.keys(kitSchema.shape));
  const misnamed = [...kit.origin.places.keys()].some(
    (path) => path !== '' && !path.includes('/') && !groups.has(path),
  );
  if (!kit.value || misnamed) broken.add(CONTENT_FILES.kit);
  const words = only(CONTENT_FILES.words, wordsSchema, 'the words of the trade');

  [, ...others] = info.value?.languages ?? [];
  const wordsIn = new Map<string, Words>();
  for (const file of files) {
    const language = CONTENT_FILES.wordsIn.exec(file)?.[1];
    if (language === undefined) continue;
    // Without the shop's file nobody knows its languages: that is told once, of the file.
    if (!info.value) continue;
    if (!others.includes(language)) {
      const help = `name ${language} under languages: in shop.yaml, after the language of words.yaml`;
      diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, help));
      continue;
    }
    wordsIn.set(language, only(file, wordsSchema, 'the words of the trade').whole);
  }
  const machines = each<Machine>(CONTENT_FILES.machine, (id) => (text, points) => {
    const { machine: value, ...rest } = readMachine(id, text, points);
    return { ...rest, ...(value && { value }) };
  });
  const machineById = new Map(machines.map((machine) => [machine.id, machine]));
  for (const file of files) {
    const astray = isContent(file) ? null : ASTRAY.exec(file);
    if (!astray) continue;
    diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, whereItBelongs(file)));
    // Whoever refers to it is not told that it does not exist.
    broken.add(astray[1] ?? whatItIs(file) ?? file);
  }
  const kitIsMissing = !texts.has(CONTENT_FILES.kit) && !broken.has(CONTENT_FILES.kit);
  if (!texts.has(CONTENT_FILES.kit)) broken.add(CONTENT_FILES.kit);

  // Lesson by lesson, each with what else it is made from.
  const translatedIn = filesById(files, CONTENT_FILES.translation);
  const correctedIn = filesById(files, CONTENT_FILES.corrections);
  const lessons: Lesson[] = [];
  const translations: Translation[] = [];
  const corrections: Correction[] = [];
  const alsoOf = (id: string): Pick<LessonParts, 'translations' | 'corrections'> => {
    const own = {
      translations: (translatedIn.get(id) ?? []).flatMap((file) => translationIn(file, id)),
      corrections: (correctedIn.get(id) ?? []).flatMap((file) => correctionsIn(file, id)),
    };
    translations.push(...own.translations);
    corrections.push(...own.corrections);
    return own;
  };
  const translationIn = (file: string, id: string): Translation[] => {
    if (!info.value) return [];
    const language = CONTENT_FILES.translation.exec(file)?.[2] ?? '';
    const why = !others.includes(language)
      ? `name ${language} under languages: in shop.yaml, after the language of the lessons without a suffix`
      : lessonById.has(id) || broken.has(id)
        ? undefined
        : `it translates lessons/${id}.mdx, which is not there`;
    if (why !== undefined) {
      diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, why));
      return [];
    }
    const translation = read<Translation>(file, (text, points, asking) => {
      const { lesson, diagnostics } = readLesson(id, text, points, asking.recording, asking.facts);
      return { diagnostics, broken: [], ...(lesson && { value: { language, lesson } }) };
    });
    return translation ? [translation] : [];
  };
  const correctionsIn = (file: string, id: string): readonly Correction[] =>
    read<readonly Correction[]>(file, (text, points, asking) => {
      const { corrections: value, diagnostics } = readCorrections(id, text, points, asking.recordingOf(id));
      return { value, diagnostics, broken: [] };
    }) ?? [];
  for (const [id, [file = '']] of filesById(files, CONTENT_FILES.lesson)) {
    const lesson = read<Lesson>(file, (text, points, asking) => {
      const { lesson: value, diagnostics, broken = [] } = readLesson(id, text, points, asking.recording, asking.facts);
      return { diagnostics, broken, ...(value && { value }) };
    });
    if (lesson) {
      lessonById.set(id, lesson);
      lessons.push(lesson);
    } else broken.add(id);
    const recording = lesson && recordingBy(lesson.recording);
    const machine = lesson && machineById.get(lesson.machine);
    const parts = {
      lessons: lesson ? [lesson] : [],
      ...{ recordings: recording ? [recording] : [], machines: machine ? [machine] : [], kit: kit.whole },
      ...alsoOf(id),
    };
    recalls.lesson?.(id, parts, broken);
  }
  const recordings = files.flatMap((file) => {
    const id = CONTENT_FILES.recording.exec(file)?.[1];
    return (id === undefined ? undefined : recordingBy(id)) ?? [];
  });
  diagnostics.push(...files.flatMap((file) => toldOfRecordings.get(file) ?? []));
  for (const id of new Set([...translatedIn.keys(), ...correctedIn.keys()]))
    if (!texts.has(`lessons/${id}.mdx`)) alsoOf(id);
  if (kitIsMissing && lessons.some(usesKit))
    diagnostics.push(
      missing(CONTENT_FILES.kit, 'list in it, under tools:, parts:, supplies: and protective:, what lessons use'),
    );

  const classes: ShopClass[] = eachYaml(CONTENT_FILES.shopClass, classSchema, 'a class');
  const actuals: Actual[] = eachYaml(CONTENT_FILES.actual, actualSchema, 'what a class took');
  const aside: ClassQuestions[] = eachYaml(CONTENT_FILES.questions, questionsSchema, 'questions set aside');
  const collections = readCollections(texts);
  diagnostics.push(...(texts.has(CONTENT_FILES.collections) ? collections.diagnostics : []));
  for (const id of collections.broken) broken.add(id);

  const [language = info.value?.language] = info.value?.languages ?? [];
  const name: ShopInfo = {
    ...{ name: 'This shop', ...info.value },
    ...(language !== undefined && { language }),
    origin: info.origin,
  };
  const shop = {
    info: name,
    locale: { ...ENGLISH, ...(language !== undefined && { tag: language }) },
    recordings,
    lessons,
    translations: translations.toSorted(({ lesson: a }, { lesson: b }) => byFile(a, b)),
    machines,
    kit: kit.whole,
    words: words.whole,
    ...(wordsIn.size > 0 && { wordsIn }),
    classes,
    actuals,
    questions: aside,
    corrections: corrections.toSorted(byFile),
    collections: collections.collections,
    broken,
  };
  return { shop, diagnostics };
}

/** Files of a kind by the id in their name, in order. */
function filesById(files: readonly string[], kind: RegExp): ReadonlyMap<string, readonly string[]> {
  return groupBy(
    files.filter((file) => kind.test(file)),
    (file) => kind.exec(file)?.[1] ?? '',
  );
}

function byFile({ origin: { place: a } }: Read, { origin: { place: b } }: Read): number {
  return a.file < b.file ? -1 : a.file > b.file ? 1 : 0;
}

/** What comes of the text of a file; of one that is no UTF-8, only that. */
function readFile<T>(
  file: string,
  texts: ReadonlyMap<string, string>,
  asking: Questions,
  reader: Reader<T>,
): FileRead<T> {
  const text = withoutMark(texts.get(file) ?? '');
  const { fault, readable } = encodingFault(file, text);
  if (!readable) return { diagnostics: fault ? [fault] : [], broken: [idOf(file) ?? file] };
  const read = reader(text, new Points(file, text), asking);
  return fault ? { ...read, diagnostics: [fault, ...read.diagnostics] } : read;
}

/** True when a lesson takes anything from the kit. */
function usesKit({ chapters }: Lesson): boolean {
  return chapters.some((chapter) => [chapter, ...chapter.steps].some(({ uses }) => uses.length > 0));
}

function missing(file: string, help: string): Diagnostic {
  return tell('file-missing', startOf(file), `there is no ${file}`, help);
}
