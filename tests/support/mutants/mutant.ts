import { globSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';

/** A changed place of a source file; lines and columns count from nought. */
export interface Mutant {
  readonly id: string;
  readonly fileName: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: Point; readonly end: Point };
}
interface Point {
  readonly line: number;
  readonly column: number;
}

type File = { name: string; content: string; mutate: boolean | readonly Mutant['location'][] };

/** The same mutant has the same key in every run, as long as the code around it stays. */
export function keyOf({ fileName, mutatorName, replacement = '', location: { start, end } }: Mutant): string {
  return [fileName, start.line, start.column, end.line, end.column, mutatorName, replacement].join(' ');
}

/** Every mutant of these files, as the mutation tester makes them. */
export async function everyMutant(pattern: string | string[]): Promise<readonly Mutant[]> {
  const names = globSync(pattern).toSorted();
  return (await instrument(names.map((name) => ({ name, mutate: true, content: readFileSync(name, 'utf8') })))).mutants;
}

/**
 * The files of some mutants with all of those built in, each asleep until its id is called, and these mutants with
 * their ids. Other mutants of the same places are there too, and sleep for ever.
 */
export async function withMutants(
  mutants: readonly Mutant[],
): Promise<{ readonly texts: ReadonlyMap<string, string>; readonly mutants: readonly Mutant[] }> {
  const files = [...new Set(mutants.map(({ fileName }) => fileName))].map((name) => ({
    name,
    content: readFileSync(name, 'utf8'),
    mutate: mutants.filter(({ fileName }) => fileName === name).map(({ location }) => location),
  }));
  const built = await instrument(files);
  const wanted = new Set(mutants.map(keyOf));
  return {
    texts: new Map(built.files.map(({ name, content }) => [resolve(name), content])),
    mutants: built.mutants.filter((mutant) => wanted.has(keyOf(mutant))),
  };
}

async function instrument(files: readonly File[]): Promise<{ files: readonly File[]; mutants: readonly Mutant[] }> {
  const quiet = () => {};
  const logger = { isDebugEnabled: () => false, debug: quiet, info: quiet, warn: quiet, error: quiet };
  const options = { ignorers: [], excludedMutations: [], plugins: null, noHeader: false };
  return (await new Instrumenter(logger as never).instrument(files as never, options as never)) as never;
}
