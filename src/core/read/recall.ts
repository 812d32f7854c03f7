import type { Diagnostic, FileFacts, LessonParts, Recording } from '../model/index.ts';

/** What came of reading a file. */
export interface FileRead<T> {
  /** Absent where not enough of it is sound. */
  readonly value?: T;
  readonly diagnostics: readonly Diagnostic[];
  /** Ids in it that could not be read. */
  readonly broken: readonly string[];
}

/** All that the reading of a file may ask besides its own text. */
export interface Questions {
  /** What is known of a file that it names. */
  facts(file: string): FileFacts;
  recording(id: string): Recording | undefined;
  /** The recording of a lesson. */
  recordingOf(lesson: string): Recording | undefined;
  /** The further languages of the shop; of all files alike. */
  languages(of: ''): readonly string[];
}

/**
 * Reads a file, or gives what came of it before, if its text is the same and everything that was asked then would be
 * answered alike now.
 *
 * @param texts by path
 * @param read reads it now, and asks nothing but what it is handed
 */
export type Recall = <T>(
  file: string,
  texts: ReadonlyMap<string, string>,
  questions: Questions,
  read: (questions: Questions) => FileRead<T>,
) => FileRead<T>;

/** What is read of a folder, as far as it need not be read anew. */
export interface Recalls {
  /** The YAML of recordings alone, which is wanted before the files it names have been looked at. */
  readonly recordings: Recall;
  readonly files: Recall;
  /** Told of each lesson as soon as it and all that it is made from has been read. */
  readonly lesson?: (id: string, parts: LessonParts, broken: ReadonlySet<string>) => void;
}

/** For a reading that has nothing to ask. */
export const NO_QUESTIONS: Questions = {
  facts: () => ({ state: 'missing' }),
  recording: () => undefined,
  recordingOf: () => undefined,
  languages: () => [],
};

/** Something that was asked, and the answer. */
export interface Answer {
  readonly question: keyof Questions;
  readonly about: string;
  readonly answer: unknown;
}

/** The same questions; what is asked and answered is written down. */
export function written(questions: Questions): { readonly asked: readonly Answer[]; readonly questions: Questions } {
  const asked: Answer[] = [];
  const note = <T>(question: keyof Questions, about: string, answer: T): T => {
    asked.push({ question, about, answer });
    return answer;
  };
  return {
    asked,
    questions: {
      facts: (file) => note('facts', file, questions.facts(file)),
      recording: (id) => note('recording', id, questions.recording(id)),
      recordingOf: (lesson) => note('recordingOf', lesson, questions.recordingOf(lesson)),
      languages: () => note('languages', '', questions.languages('')),
    },
  };
}

/** Asks once more. */
export function askAgain(questions: Questions, { question, about }: Answer): unknown {
  return question === 'languages' ? questions.languages('') : questions[question](about);
}

interface KeptRead {
  readonly text: string | undefined;
  readonly asked: readonly Answer[];
  readonly read: FileRead<unknown>;
}

/** What was read of a content folder, so that reading it again after a change reads only what that change touches. */
export class KeptReads {
  #recordings = new Map<string, KeptRead>();
  #files = new Map<string, KeptRead>();

  /** For reading the whole folder once more; what is not asked for this time is forgotten. */
  again(): Recalls {
    const before = { recordings: this.#recordings, files: this.#files };
    this.#recordings = new Map();
    this.#files = new Map();
    return {
      recordings: recallFrom(before.recordings, this.#recordings),
      files: recallFrom(before.files, this.#files),
    };
  }
}

function recallFrom(before: ReadonlyMap<string, KeptRead>, now: Map<string, KeptRead>): Recall {
  return <T>(
    file: string,
    texts: ReadonlyMap<string, string>,
    questions: Questions,
    read: (questions: Questions) => FileRead<T>,
  ) => {
    const text = texts.get(file);
    const known = now.get(file) ?? before.get(file);
    if (known?.text === text && known?.asked.every((each) => same(each.answer, askAgain(questions, each)))) {
      now.set(file, known);
      // A path is read by one reader: it says what kind of file it is.
      return known.read as FileRead<T>;
    }
    const { asked, questions: noted } = written(questions);
    const fresh = read(noted);
    now.set(file, { text, asked, read: fresh });
    return fresh;
  };
}

/** True for two answers that say the same: recordings are the same object, the rest is compared by what it says. */
function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (isFacts(a) && isFacts(b)) return a.state === 'text' && b.state === 'text' ? a.text === b.text : alike(a, b);
  return Array.isArray(a) && Array.isArray(b) && alike(a, b);
}

function alike(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function isFacts(answer: unknown): answer is FileFacts {
  return typeof answer === 'object' && answer !== null && 'state' in answer;
}
