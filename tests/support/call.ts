import { resolve } from 'node:path';
import { runCommandLine, type Surroundings } from '../../src/node/cli/run-command-line.ts';

/** Runs a command line in this process, with a fixed clock, and gives back what it said. */
export async function call(
  words: readonly string[],
  given: Partial<Surroundings> & { content?: string } = {},
): Promise<{ code: number; out: string; said: string }> {
  const out: string[] = [];
  const said: string[] = [];
  const { content, ...around } = given;
  const code = await runCommandLine(content ? [...words, '--content', content] : words, {
    cwd: content ? resolve(content, '..') : process.cwd(),
    home: resolve(import.meta.dirname, '../..'),
    env: {},
    terminal: false,
    signal: new AbortController().signal,
    now: () => new Date(2026, 10, 25, 12),
    input: async () => '',
    out: (text) => out.push(text),
    say: (text) => said.push(text),
    ...around,
  });
  return { code, out: out.join('\n'), said: said.join('\n') };
}
