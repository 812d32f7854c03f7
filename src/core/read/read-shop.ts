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
  type Kit,
  kitSchema,
  type Lesson,
  type Machine,
  questionsSchema,
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
import { tell } from './faults.ts';
import { didYouMean, nearest } from './nearest.ts';
import { Points } from './points.ts';
import { readCollections } from './read-collections.ts';
import { readCorrections } from './read-corrections.ts';
import { readLesson } from './read-lesson.ts';
import { readMachine } from './read-machine.ts';
import { fileInLanguage, readRecording, recordingsOf } from './read-recording.ts';
import { readYaml, type YamlRead } from './read-yaml.ts';

/** Where each kind of content file lives, relative to the content folder. */
export const CONTENT_FILES = {
  shop: 'shop.yaml',
  kit: 'kit.yaml',
  words: 'words.yaml',
  wordsIn: /^words\.([A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*)\.yaml$/,
  collections: 'collections.yaml',
  recording: /^recordings\/([^/]+)\.yaml$/,
  lesson: /^lessons\/([^/.]+)\.mdx$/,
  translation: /^lessons\/([^/.]+)\.([A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*)\.mdx$/,
  machine: /^specs\/([^/]+)\.yaml$/,
  shopClass: /^classes\/([^/.]+)\.yaml$/,
  corrections: /^corrections\/([^/]+)\.yaml$/,
  questions: /^questions\/([^/]+)\.yaml$/,
  actual: /^classes\/([^/.]+)\.actual\.yaml$/,
} as const;

/** Looks like something somebody wanted read, but is not where or what it would have to be. */
const ASTRAY =
  /^(?:recordings|lessons|specs|classes|corrections|questions)\/(?!readme\.md$)([^/]+)\.(?:ya?ml|mdx?|json)$|^[^/]+\.ya?ml$/i;

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

/**
 * All texts of a content folder as one typed shop. Every problem of every file is told; what is sound is kept.
 *
 * @param texts by path relative to the content folder, with `/`
 * @param facts what is known of a file the content names; asked for camera files, captions and the pictures of lessons only
 * @param unreadable files and folders that are there and could not be read, by path
 */
export function readShop(
  texts: ReadonlyMap<string, string>,
  facts: (file: string) => FileFacts,
  unreadable: ReadonlyMap<string, Unreadable> = new Map(),
): ShopRead {
  const diagnostics: Diagnostic[] = [];
  const broken = new Set<string>();
  const sources = [...texts]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, text]) => ({ file, ...withoutMark(text) }))
    .filter(({ file, text }) => {
      if (!Object.values(CONTENT_FILES).some((kind) => isOf(kind, file))) return true;
      const { fault, readable } = encodingFault(file, text);
      if (fault) diagnostics.push(fault);
      if (!readable) broken.add(idOf(file) ?? file);
      return readable;
    });
  for (const [file, { reason, help }] of unreadable) {
    diagnostics.push(tell('file-unreadable', startOf(file), `${file} cannot be read: ${reason}`, help));
    broken.add(idOf(file) ?? file);
  }
  const keep = <T>(read: { diagnostics: readonly Diagnostic[]; broken?: readonly string[] }, value: T): T => {
    diagnostics.push(...read.diagnostics);
    for (const id of read.broken ?? []) broken.add(id);
    return value;
  };
  /** Reads every file of a kind; one that cannot be read is remembered, so that nobody is told it does not exist. */
  const each = <T>(pattern: RegExp, read: (id: string, text: string, points: Points) => T | undefined): T[] =>
    sources.flatMap(({ file, text }) => {
      const id = pattern.exec(file)?.[1];
      if (id === undefined) return [];
      const value = read(id, text, new Points(file, text));
      if (value === undefined) broken.add(id);
      return value === undefined ? [] : [value];
    });
  const only = <T>(file: string, schema: z.ZodType<T>, what: string): YamlRead<T> => {
    const text = sources.find((source) => source.file === file)?.text ?? '';
    return readYaml(text, new Points(file, text), 0, schema, what);
  };

  const info = only(CONTENT_FILES.shop, shopSchema, 'the shop');
  if (texts.has(CONTENT_FILES.shop)) keep(info, undefined);
  else if (!unreadable.has(CONTENT_FILES.shop))
    diagnostics.push(missing(CONTENT_FILES.shop, 'begin it with name: and the name of the shop'));
  const kit = only(CONTENT_FILES.kit, kitSchema, 'the kit');
  keep(kit, undefined);
  // Under a group's name misspelt stand things that would otherwise be told as unknown, one by one.
  const groups = new Set(Object.keys(kitSchema.shape));
  const misnamed = [...kit.origin.places.keys()].some(
    (path) => path !== '' && !path.includes('/') && !groups.has(path),
  );
  if (!kit.value || misnamed) broken.add(CONTENT_FILES.kit);

  const words = only(CONTENT_FILES.words, wordsSchema, 'the words of the trade');
  if (texts.has(CONTENT_FILES.words)) keep(words, undefined);

  const [, ...others] = info.value?.languages ?? [];
  const wordsIn = new Map<string, Words>();
  for (const { file } of sources) {
    const language = CONTENT_FILES.wordsIn.exec(file)?.[1];
    if (language === undefined) continue;
    if (!others.includes(language)) {
      const help = `name ${language} under languages: in shop.yaml, after the language of words.yaml`;
      diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, help));
      continue;
    }
    const own = only(file, wordsSchema, 'the words of the trade');
    keep(own, wordsIn.set(language, { ...own.value, origin: own.origin }));
  }
  const yamlOf = recordingsOf(texts);
  const recordings = each<Recording>(CONTENT_FILES.recording, (id, text, points) => {
    const read = readRecording(id, yamlOf(points.file, text), facts, others);
    return keep(read, read.recording);
  });
  const byId = new Map(recordings.map((recording) => [recording.id, recording]));
  const lessons = each<Lesson>(CONTENT_FILES.lesson, (id, text, points) => {
    const read = readLesson(id, text, points, byId, facts);
    return keep(read, read.lesson);
  });
  const translations = sources.flatMap(({ file, text }): Translation[] => {
    const [, id = '', language = ''] = CONTENT_FILES.translation.exec(file) ?? [];
    if (id === '') return [];
    const why = !others.includes(language)
      ? `name ${language} under languages: in shop.yaml, after the language of the lessons without a suffix`
      : lessons.some((lesson) => lesson.id === id) || broken.has(id)
        ? undefined
        : `it translates lessons/${id}.mdx, which is not there`;
    if (why !== undefined) {
      diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, why));
      return [];
    }
    const read = readLesson(id, text, new Points(file, text), byId, facts);
    diagnostics.push(...read.diagnostics);
    return read.lesson ? [{ language, lesson: read.lesson }] : [];
  });
  const machines = each<Machine>(CONTENT_FILES.machine, (id, text, points) => {
    const read = readMachine(id, text, points);
    return keep(read, read.machine);
  });
  const classes = each<ShopClass>(CONTENT_FILES.shopClass, (id, text, points) => {
    const read = readYaml(text, points, 0, classSchema, 'a class');
    return keep(read, read.value && { ...read.value, id, origin: read.origin });
  });
  const actuals = each<Actual>(CONTENT_FILES.actual, (id, text, points) => {
    const read = readYaml(text, points, 0, actualSchema, 'what a class took');
    return keep(read, read.value && { ...read.value, id, origin: read.origin });
  });
  const questions = each<ClassQuestions>(CONTENT_FILES.questions, (id, text, points) => {
    const read = readYaml(text, points, 0, questionsSchema, 'questions set aside');
    return keep(read, read.value && { ...read.value, id, origin: read.origin });
  });
  const corrections = each<readonly Correction[]>(CONTENT_FILES.corrections, (id, text, points) => {
    const read = readCorrections(id, text, points, lessons, byId);
    return keep(read, read.corrections);
  }).flat();
  const collections = readCollections(texts);
  if (texts.has(CONTENT_FILES.collections)) keep(collections, undefined);
  for (const { file } of sources) {
    const astray = Object.values(CONTENT_FILES).some((kind) => isOf(kind, file)) ? null : ASTRAY.exec(file);
    if (!astray) continue;
    diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, whereItBelongs(file)));
    // Whoever refers to it is not told that it does not exist.
    broken.add(astray[1] ?? whatItIs(file) ?? file);
  }
  if (!texts.has(CONTENT_FILES.kit) && !broken.has(CONTENT_FILES.kit) && lessons.some(usesKit))
    diagnostics.push(
      missing(CONTENT_FILES.kit, 'list in it, under tools:, parts:, supplies: and protective:, what lessons use'),
    );
  if (!texts.has(CONTENT_FILES.kit)) broken.add(CONTENT_FILES.kit);

  const [language = info.value?.language] = info.value?.languages ?? [];
  const name: ShopInfo = {
    ...{ name: 'This shop', ...info.value },
    ...(language !== undefined && { language }),
    origin: info.origin,
  };
  const stock: Kit = { ...kit.value, origin: kit.origin };
  const names: Words = { ...words.value, origin: words.origin };
  const shop = {
    info: name,
    locale: { ...ENGLISH, ...(language !== undefined && { tag: language }) },
    recordings,
    lessons,
    translations,
    machines,
    kit: stock,
    words: names,
    ...(wordsIn.size > 0 && { wordsIn }),
    classes,
    actuals,
    questions,
    corrections,
    collections: collections.collections,
    broken,
  };
  return { shop, diagnostics };
}

/** Camera files and captions that the content names, to be looked at on disk before reading. */
export function filesNamed(texts: ReadonlyMap<string, string>): { media: string[]; texts: string[] } {
  const media = new Set<string>();
  const captions = new Set<string>();
  const shop = withoutMark(texts.get(CONTENT_FILES.shop) ?? '').text;
  const info = readYaml(shop, new Points(CONTENT_FILES.shop, shop), 0, shopSchema, 'the shop').value;
  const yamlOf = recordingsOf(texts);
  for (const [file, source] of texts) {
    const written = CONTENT_FILES.recording.test(file) ? yamlOf(file, withoutMark(source).text).value : undefined;
    for (const { file } of written?.files ?? []) media.add(file);
    for (const { file } of written?.angles ?? []) media.add(file);
    if (!written?.captions) continue;
    captions.add(written.captions);
    for (const language of info?.languages?.slice(1) ?? []) captions.add(fileInLanguage(written.captions, language));
  }
  return { media: [...media], texts: [...captions] };
}

/** True when a lesson takes anything from the kit. */
function usesKit({ chapters }: Lesson): boolean {
  return chapters.some((chapter) => [chapter, ...chapter.steps].some(({ uses }) => uses.length > 0));
}

function missing(file: string, help: string): Diagnostic {
  return tell('file-missing', startOf(file), `there is no ${file}`, help);
}

function isOf(kind: string | RegExp, file: string): boolean {
  return typeof kind === 'string' ? kind === file : kind.test(file);
}

/** The id that a content file has by its name; nothing where there is only one of its kind. */
function idOf(file: string): string | undefined {
  for (const kind of Object.values(CONTENT_FILES)) {
    const id = typeof kind === 'string' ? undefined : kind.exec(file)?.[1];
    if (id !== undefined) return id;
  }
  return undefined;
}

/** Says that a text is no UTF-8: a character of it could not be read, or every other byte is nought. */
function encodingFault(file: string, text: string): { readonly fault?: Diagnostic; readonly readable: boolean } {
  const at = text.search(/[\0\uFFFD]/);
  if (at === -1) return { readable: true };
  const wide = text.includes('\0');
  const help = 'save the file as UTF-8, as every editor can';
  const message = wide
    ? 'the text is in UTF-16, or is none'
    : 'a letter here is not in UTF-8, so it cannot be known which it is';
  const place = new Points(file, text).place(at, at + 1);
  return { fault: tell('file-encoding', place, message, help), readable: !wide };
}

/** The text without a byte order mark, which would shift every offset by one. */
function withoutMark(text: string): { text: string } {
  return { text: text.startsWith('\uFEFF') ? text.slice(1) : text };
}

/** Content files that stand at the top. */
const TOP = [CONTENT_FILES.shop, CONTENT_FILES.kit, CONTENT_FILES.words, CONTENT_FILES.collections];

/** Which of the files at the top a mistyped name stands for. */
function whatItIs(file: string): string | undefined {
  return nearest(file, TOP)[0];
}

function whereItBelongs(file: string): string {
  const folder = file.split('/')[0] ?? '';
  if (!file.includes('/'))
    return didYouMean(file, TOP, 'at the top stand shop.yaml, kit.yaml, words.yaml and collections.yaml');
  return folder === 'lessons' ? 'a lesson ends in .mdx' : `what stands in ${folder}/ ends in .yaml`;
}
