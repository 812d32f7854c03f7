import type { FileFacts } from '../../core/model/index.ts';
import { type FileRead, type Questions, written } from '../../core/read/index.ts';
import { type FileSums, sumOf } from './file-sums.ts';

/** Something that was asked while a file was read. */
export type Asked = readonly [question: keyof Questions, about: string];

/** What was asked while a file was read, and the sum of its text and of all the answers. */
export interface ReadKey {
  readonly asked: readonly Asked[];
  readonly key: string;
}

/**
 * Keys of what comes of reading files: the same key, and reading would come to the same. A key is the sum of the text and
 * of the answers to all that was asked beside it.
 */
export class ReadKeys {
  readonly #sums: FileSums;
  readonly #keys: Map<string, string>;
  readonly #facts = new WeakMap<FileFacts, string>();

  /** @param before keys of files that are as they were */
  constructor(sums: FileSums, before: ReadonlyMap<string, string> = new Map()) {
    this.#sums = sums;
    this.#keys = new Map(before);
  }

  /** Of a file that was read in this pass; empty for none. */
  of(file: string): string {
    return this.#keys.get(file) ?? '';
  }

  /** Of the text of a file; empty where that is not known. */
  sum(file: string): string {
    return this.#sums.sum(file) ?? '';
  }

  get all(): ReadonlyMap<string, string> {
    return this.#keys;
  }

  /** True where what was read once is what would be read now. */
  holds(file: string, { asked, key }: ReadKey, questions: Questions): boolean {
    const holds = this.#keyOf(file, asked, questions) === key;
    if (holds) this.#keys.set(file, key);
    return holds;
  }

  /** Reads a file, and notes what it asks. */
  read<T>(
    file: string,
    questions: Questions,
    read: (questions: Questions) => FileRead<T>,
  ): { readonly fresh: FileRead<T>; readonly key: ReadKey } {
    const { asked: answers, questions: noted } = written(questions);
    const fresh = read(noted);
    const unique = new Map(answers.map(({ question, about }) => [`${question} ${about}`, [question, about] as const]));
    const asked = [...unique.values()];
    const key = this.#keyOf(file, asked, questions);
    this.#keys.set(file, key);
    return { fresh, key: { asked, key } };
  }

  #keyOf(file: string, asked: readonly Asked[], questions: Questions): string {
    const answers = asked.map(
      ([question, about]) => `${question} ${about} ${this.#answer(question, about, questions)}`,
    );
    return sumOf([this.#sums.sum(file), ...answers].join('\n'));
  }

  #answer(question: keyof Questions, about: string, questions: Questions): string {
    switch (question) {
      case 'facts': {
        const facts = questions.facts(about);
        return facts.state === 'text' ? (this.#sums.sum(about) ?? sumOf(facts.text)) : this.#wordsOf(facts);
      }
      case 'recording':
        return this.#ofRecording(questions.recording(about)?.id);
      case 'recordingOf':
        return this.#ofRecording(questions.recordingOf(about)?.id);
      case 'languages':
        return JSON.stringify(questions.languages(''));
      default:
        return question satisfies never;
    }
  }

  /** Of a camera file that many recordings name, once. */
  #wordsOf(facts: FileFacts): string {
    const words = this.#facts.get(facts) ?? JSON.stringify(facts);
    this.#facts.set(facts, words);
    return words;
  }

  #ofRecording(id: string | undefined): string {
    return id === undefined ? '' : this.of(`recordings/${id}.yaml`);
  }
}
