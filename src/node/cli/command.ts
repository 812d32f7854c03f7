import { stat } from 'node:fs/promises';
import { OutsideFailure } from '../failure.ts';
import type { LoadedShop } from '../files/index.ts';

export { OutsideFailure };

/** Exit codes of every command. */
export const EXIT = { fine: 0, contentHasErrors: 1, callIsWrong: 2, outsideFailed: 3 } as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** An option of a command: a switch when `value` is left out. */
export interface Option {
  readonly name: string;
  readonly short?: string;
  /** What to write after it, such as `FILE`. */
  readonly value?: string;
  readonly choices?: readonly string[];
  /** May be given more than once. */
  readonly many?: true;
  readonly help: string;
}

/** Options as given: a switch is `true`, one that was given more than once a list. */
export class Flags {
  readonly #given: ReadonlyMap<string, string | readonly string[] | true>;

  constructor(given: ReadonlyMap<string, string | readonly string[] | true> = new Map()) {
    this.#given = given;
  }

  has(name: string): boolean {
    return this.#given.has(name);
  }

  /** The text after the option; nothing when it was not given. */
  text(name: string): string | undefined {
    const value = this.#given.get(name);
    return typeof value === 'string' ? value : undefined;
  }

  /** The texts of an option that may be given more than once, in order. */
  texts(name: string): readonly string[] {
    const value = this.#given.get(name);
    return typeof value === 'string' ? [value] : value === undefined || value === true ? [] : value;
  }
}

/** Everything a command may touch. */
export interface Context {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Absolute path of the folder the command was called in. */
  readonly cwd: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** True when a person watches: colours and live progress make sense. */
  readonly terminal: boolean;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
  now(): Date;
  /** Asks whoever sits there, and gives back the line typed, without blanks around it; absent where nobody can answer. */
  readonly ask?: (question: string) => Promise<string>;
  /** Reads the content folder, once. */
  load(): Promise<LoadedShop>;
  /** Every command, for what speaks of all of them. */
  commands(): Promise<readonly Command[]>;
  /** Standard input as text. */
  input(): Promise<string>;
  /** The result, to standard output. */
  out(text: string): void;
  /** Words, to standard error. */
  say(text: string): void;
  /** A line on the terminal that the next one, or the next words, replace. Left out where nobody watches. */
  live?(text: string): void;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  /** Arguments, such as `<lesson>` or `[file]`, in order. */
  readonly args: readonly string[];
  readonly options: readonly Option[];
  run(args: readonly string[], flags: Flags, context: Context): Promise<ExitCode>;
}

/** A command, checked against its type. */
export function command(definition: Command): Command {
  return definition;
}

/** @throws OutsideFailure when there is no content folder at an absolute path */
export async function folderThere(content: string): Promise<void> {
  const known = await stat(content).catch(() => undefined);
  if (!known?.isDirectory())
    throw new OutsideFailure(
      `there is no content folder at ${content}`,
      'call from the folder that holds content/, or say --content DIR',
      true,
    );
}
