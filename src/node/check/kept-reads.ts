import { deserialize, serialize } from 'node:v8';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import {
  brokenAmong,
  inAround,
  inLesson,
  inMachine,
  inRecording,
  lessonParts,
  namesIn,
  type Raw,
  RULES,
} from '../../core/check/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Lesson, LessonParts, Machine, Recording, Shop, Translation } from '../../core/model/index.ts';
import { CONTENT_FILES, type FileRead, type Questions, type Recalls } from '../../core/read/index.ts';
import { type FileSums, type ReadKeys, type ReadsOnDisk, sumOf } from '../files/index.ts';
import type { CheckKept, FoundKept, Front, ReadKept } from './kept-file.ts';
import { KeptHearing } from './kept-hearing.ts';
import { lazily } from './lazily.ts';
import { pieceOf } from './pieces.ts';

/** What of a lesson is long, and wanted only where something of it has to be worked out anew. */
const BODY: ReadonlySet<string> = new Set(['chapters', 'intro', 'opening', 'notes', 'pictures']);

/** So many models are held at a time: those of the lesson that is looked at, and recordings that the next may share. */
const HELD = 8;

/**
 * What an earlier check has read and found, as far as it still holds; the rest is worked out, one lesson after the
 * other, so that a thousand need no more memory than a few.
 *
 * Whatever is kept has a key: the sum of all that it was made from. For a text that was read, that is the text and the
 * answers to what was asked; for findings, what the rules were given. Other keys, other work: nothing is ever outdated.
 */
export class KeptChecks {
  readonly recalls: Recalls;
  readonly #sums: FileSums;
  readonly #keys: ReadKeys;
  readonly #speech: ReadonlyMap<string, HeardSpeech>;
  readonly #readBefore: ReadonlyMap<string, ReadKept>;
  readonly #foundBefore: ReadonlyMap<string, FoundKept>;
  readonly #reads = new Map<string, ReadKept>();
  readonly #found = new Map<string, FoundKept>();
  readonly #held = new Map<string, object>();

  /**
   * @param keys of all that is read in this check
   * @param disk where what reading came to may have been left by who reads the folder whole
   */
  constructor(
    before: CheckKept,
    sums: FileSums,
    speech: ReadonlyMap<string, HeardSpeech>,
    yaml: Recalls,
    keys: ReadKeys,
    disk: ReadsOnDisk | undefined,
  ) {
    this.#sums = sums;
    this.#keys = keys;
    this.#speech = speech;
    this.#readBefore = new Map(before.reads);
    this.#foundBefore = new Map(before.found);
    this.recalls = {
      recordings: yaml.recordings,
      files: (file, _, questions, read) => {
        const fromDisk = (asking: Questions, keeps?: boolean) => disk?.read(file, asking, read, keeps) ?? read(asking);
        // What is wanted although it has not changed will be wanted again: its table or its kit is being worked on.
        return this.#read(file, questions, fromDisk, () => fromDisk(questions, true).value);
      },
      lesson: (id, parts, broken) => void this.#inLesson(id, parts, broken),
    };
  }

  /** What the rules find in each lesson, recording and machine by itself, and around them. */
  found(shop: Shop, today: string): Raw[] {
    return [
      ...shop.recordings.flatMap((recording) => this.#inRecording(recording)),
      ...shop.machines.flatMap((machine) => this.#inMachine(machine)),
      ...[...lessonParts(shop)].flatMap(([id, parts]) => this.#inLesson(id, parts, shop.broken)),
      ...this.#around(shop, today),
    ];
  }

  get kept(): Pick<CheckKept, 'reads' | 'found'> {
    return { reads: [...this.#reads], found: [...this.#found] };
  }

  /** @param again reads it once more */
  #read<T>(
    file: string,
    questions: Questions,
    read: (questions: Questions) => FileRead<T>,
    again: () => unknown,
  ): FileRead<T> {
    const whole = () => this.#whole(file, again);
    const before = this.#readBefore.get(file);
    if (before && this.#keys.holds(file, before, questions)) {
      this.#reads.set(file, before);
      return { ...before, ...(before.front && { value: ofFront<T>(file, before.front, whole) }) };
    }
    return this.#readNow(file, questions, read, whole);
  }

  /** Apart from where `whole` is made: a function that is kept holds on to all that functions made beside it can see. */
  #readNow<T>(
    file: string,
    questions: Questions,
    read: (questions: Questions) => FileRead<T>,
    whole: () => object,
  ): FileRead<T> {
    const { fresh, key } = this.#keys.read(file, questions, read);
    const { diagnostics, broken, value } = fresh;
    const front = value === undefined ? undefined : frontOf(file, value);
    this.#reads.set(file, {
      ...{ ...key, diagnostics, broken },
      ...(front && { front }),
      ...(CONTENT_FILES.lesson.test(file) &&
        value !== undefined && { names: pieceOf(Buffer.from([...namesIn([value as Lesson])].join('\n'))) }),
    });
    if (typeof value !== 'object' || value === null || !front || !isLong(file)) return fresh;
    this.#hold(file, value);
    const lazy = ofFront<T>(file, front, whole);
    if (CONTENT_FILES.recording.test(file)) this.#inRecording(lazy as Recording);
    return { ...fresh, value: lazy };
  }

  /** A model that was read a moment ago, or once more. */
  #whole(file: string, read: () => unknown): object {
    const model = this.#held.get(file) ?? read();
    if (typeof model !== 'object' || model === null) throw new TypeError(`${file} can no longer be read`);
    this.#hold(file, model);
    return model;
  }

  #hold(file: string, model: object): void {
    this.#held.delete(file);
    this.#held.set(file, model);
    for (const oldest of this.#held.keys()) {
      if (this.#held.size <= HELD) break;
      this.#held.delete(oldest);
    }
  }

  #inLesson(id: string, parts: LessonParts, broken: ReadonlySet<string>): readonly Raw[] {
    const { lessons, translations, recordings, machines } = parts;
    const names = () => {
      const known = lessons.length > 0 ? this.#reads.get(`lessons/${id}.mdx`)?.names : undefined;
      return known ? new Set(Buffer.from(known.bytes()).toString().split('\n')) : namesIn([]);
    };
    const own = broken.size === 0 ? broken : brokenAmong(names(), broken);
    const made = [
      ...lessons.map(() => this.#keys.of(`lessons/${id}.mdx`)),
      ...translations.map(({ language }) => this.#keys.of(`lessons/${id}.${language}.mdx`)),
      ...recordings.map((recording) => this.#keys.of(`recordings/${recording.id}.yaml`)),
      ...machines.map((machine) => this.#sums.sum(`specs/${machine.id}.yaml`)),
      ...[this.#sums.sum(CONTENT_FILES.kit), this.#sums.sum(`corrections/${id}.yaml`)],
    ];
    const key = JSON.stringify([made, [...own].toSorted()]);
    const of = `lessons/${id}`;
    const known = this.#known(of, key);
    if (known) return known.found;
    const hearing = new KeptHearing((this.#found.get(of) ?? this.#foundBefore.get(of))?.heard);
    // Each rule asks for the same: read through to the models once.
    const whole = { lessons: lessons.map((one) => ({ ...one })), recordings: recordings.map((one) => ({ ...one })) };
    const found = inLesson({ ...parts, ...whole, broken: own, hear: hearing.hear }, RULES);
    const heard = hearing.kept;
    this.#found.set(of, { key, found, ...(heard && { heard: pieceOf(heard) }) });
    return found;
  }

  #inRecording(recording: Recording): readonly Raw[] {
    const { id } = recording;
    const heard = this.#speech.get(id);
    const key = JSON.stringify([this.#keys.of(`recordings/${id}.yaml`), heard]);
    return this.#foundBy(`recordings/${id}`, sumOf(key), () => inRecording({ ...recording }, heard, RULES));
  }

  #inMachine(machine: Machine): readonly Raw[] {
    const file = `specs/${machine.id}.yaml`;
    return this.#foundBy(file, this.#keys.of(file), () => inMachine(machine, RULES));
  }

  #around(shop: Shop, today: string): readonly Raw[] {
    const made = [...this.#reads].flatMap(([file, { key }]) => (isLong(file) ? [] : [[file, key]]));
    const key = JSON.stringify([today, made, shop.collections, [...shop.broken].toSorted()]);
    return this.#foundBy('', sumOf(key), () => inAround(shop, today, RULES));
  }

  #foundBy(of: string, key: string, find: () => readonly Raw[]): readonly Raw[] {
    const kept = this.#known(of, key) ?? { key, found: find() };
    this.#found.set(of, kept);
    return kept.found;
  }

  #known(of: string, key: string): FoundKept | undefined {
    const known = [this.#found.get(of), this.#foundBefore.get(of)].find((each) => each?.key === key);
    if (known) this.#found.set(of, known);
    return known;
  }
}

/** True for lessons and recordings, which are read once more for what is long in them; of others all is kept. */
function isLong(file: string): boolean {
  return [CONTENT_FILES.lesson, CONTENT_FILES.translation, CONTENT_FILES.recording].some((kind) => kind.test(file));
}

function frontOf(file: string, value: unknown): Front {
  // A table with all its places is long, and says the same many times.
  if (CONTENT_FILES.machine.test(file))
    return { ids: { id: (value as Machine).id }, rest: deflateRawSync(serialize(value)) };
  if (!isLong(file)) return { ids: {}, rest: serialize(value) };
  if (CONTENT_FILES.recording.test(file)) return { ids: { id: (value as Recording).id }, rest: serialize({}) };
  const lesson = CONTENT_FILES.lesson.test(file) ? (value as Lesson) : (value as Translation).lesson;
  const { id, recording, machine } = lesson;
  const values = Object.entries(lesson).filter(([key]) => !BODY.has(key));
  return { ids: { id, recording, machine }, rest: pieceOf(serialize(Object.fromEntries(values))) };
}

/** A thing by its front; the rest of it is read when it is wanted. */
function ofFront<T>(file: string, { ids, rest }: Front, whole: () => object): T {
  const isMachine = CONTENT_FILES.machine.test(file);
  const front = once((): object => {
    const bytes = 'bytes' in rest ? rest.bytes() : rest;
    return deserialize(isMachine ? inflateRawSync(bytes) : bytes);
  });
  if (isMachine) return lazily<object>(ids, front) as T;
  if (!isLong(file)) return front() as T;
  const language = CONTENT_FILES.translation.exec(file)?.[2];
  const all = language === undefined ? whole : () => (whole() as Translation).lesson;
  const thing = lazily<object>(
    ids,
    once(() => lazily<object>(front(), all)),
  );
  return (language === undefined ? thing : { language, lesson: thing }) as T;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
