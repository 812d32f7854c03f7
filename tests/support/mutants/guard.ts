import { appendFileSync, closeSync, openSync, readSync } from 'node:fs';
import type { Seen } from './runner.ts';

/** How often the guard looks, ms. */
const EVERY = 500;

/**
 * Ends test processes whose mutant goes round for ever. Instrumented code ends itself as often as it comes by its mutant
 * (runner.ts); a loop that turns beside the mutant, or a promise that nobody keeps, is seen from outside only: nothing
 * has been told for longer than the process itself has allowed for.
 *
 * @param results the file into which test processes tell what they do
 * @returns to be called when the run is over: the ids of mutants whose process was ended, told as noticed
 */
export function guard(results: string, now: () => number = Date.now): () => readonly string[] {
  const ended: string[] = [];
  const doing = new Map<number, { readonly line: Seen; readonly since: number }>();
  let offset = 0;
  let rest = '';
  const newLines = (): Seen[] => {
    const file = openSync(results, 'a+');
    const chunk = Buffer.alloc(1 << 16);
    try {
      for (let read = readSync(file, chunk, 0, chunk.length, offset); read > 0; ) {
        rest += chunk.toString('latin1', 0, read);
        offset += read;
        read = readSync(file, chunk, 0, chunk.length, offset);
      }
    } finally {
      closeSync(file);
    }
    const lines = rest.split('\n');
    rest = lines.pop() ?? '';
    return lines.map((line) => JSON.parse(line));
  };
  // What an earlier run told is no sign of life of this one.
  newLines();
  const look = () => {
    for (const line of newLines()) doing.set(line.pid, { line, since: now() });
    for (const [pid, { line, since }] of doing) {
      if (line.what !== 'trying' || now() - since <= line.withinMs) continue;
      doing.delete(pid);
      ended.push(line.id);
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // It has ended by itself.
      }
      appendFileSync(results, `${JSON.stringify({ id: line.id, what: 'noticed', pid, test: 'no end' })}\n`);
    }
  };
  const timer = setInterval(look, EVERY);
  return () => {
    clearInterval(timer);
    return ended;
  };
}
