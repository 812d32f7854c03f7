import { resolve } from 'node:path';
import { runCommandLine } from './run-command-line.ts';

// The program itself; liftside.mjs starts it.
const interrupt = new AbortController();
let shown = false;
process.once('SIGINT', () => interrupt.abort());
process.once('SIGTERM', () => interrupt.abort());
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // Whoever read the output has had enough.
  if (error.code === 'EPIPE') process.exit(0);
});

process.exitCode = await runCommandLine(process.argv.slice(2), {
  cwd: process.cwd(),
  home: resolve(import.meta.dirname, '../../..'),
  env: process.env,
  terminal: process.stderr.isTTY === true,
  signal: interrupt.signal,
  now: () => new Date(),
  async input() {
    const chunks: Buffer[] = [];
    for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
    return Buffer.concat(chunks).toString('utf8');
  },
  ...(process.stdin.isTTY === true && process.stderr.isTTY === true && { ask }),
  ...(process.stderr.isTTY === true && { live: (text: string) => show(text) }),
  out: (text) => process.stdout.write(text.endsWith('\n') ? text : `${text}\n`),
  say: (text) => {
    show('');
    process.stderr.write(text.endsWith('\n') ? text : `${text}\n`);
  },
});

/** One question on the terminal; Ctrl-C ends the program as anywhere else, and leaves the answer empty. */
async function ask(question: string): Promise<string> {
  const { createInterface } = await import('node:readline/promises');
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return (await lines.question(question, { signal: interrupt.signal })).trim();
  } catch {
    interrupt.abort();
    return '';
  } finally {
    lines.close();
  }
}

/** Replaces the changing line; an empty text takes it away. */
function show(text: string): void {
  if (process.stderr.isTTY !== true || (text === '' && !shown)) return;
  process.stderr.write(`\r\u001b[K${text.slice(0, Math.max(20, (process.stderr.columns ?? 80) - 1))}`);
  shown = text !== '';
}
