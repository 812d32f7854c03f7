/**
 * How long each reader takes for each text of `tests/support/hostile-text.ts`, of 1 MB, in seconds of processor time, so
 * that a busy machine does not count; and the most memory that captions of 8 million characters take.
 *
 *     npx node tests/bench/hostile-readers.ts [reader …]
 *
 * Every reader gets what was written against it; with `LIFTSIDE_HOSTILE=all` every one gets everything. One that takes
 * over 2 s, or gives up in words that are not for people, is listed at the end, and the exit code is 1.
 */
import { execa } from 'execa';
import { HOSTILE_TEXT } from '../support/hostile-text.ts';
import { READERS } from './hostile-reading.ts';

const BYTES = 1_000_000;
/** Seconds of processor time. */
const MOST = 2;
/** A child that says nothing for so long, ms, hangs on its pattern: a machine under load takes many times as long. */
const QUIET = 240_000;
const CHILD = new URL('hostile-reading.ts', import.meta.url).pathname;

const wanted = process.argv.slice(2);
const slow: string[] = [];
let tried = 0;
for (const [reader, { aimedAt }] of Object.entries(READERS)) {
  if (wanted.length > 0 && !wanted.includes(reader)) continue;
  const all = process.env.LIFTSIDE_HOSTILE === 'all';
  const names = HOSTILE_TEXT.filter((text) => all || aimedAt.includes(text.aimedAt)).map(({ name }) => name);
  let [most, at] = [0, ''];
  for (let n = 0; n < names.length; ) {
    const running = execa(process.execPath, [CHILD, reader, String(BYTES), ...names.slice(n)], { reject: false });
    let quiet = setTimeout(() => running.kill('SIGKILL'), QUIET);
    for await (const line of running) {
      clearTimeout(quiet);
      quiet = setTimeout(() => running.kill('SIGKILL'), QUIET);
      const [seconds, problem = ''] = String(line).split('\t');
      const name = names[n++] ?? '';
      tried++;
      if (Number(seconds) > most) [most, at] = [Number(seconds), name];
      if (Number(seconds) > MOST) slow.push(`${reader}: ${name}: ${seconds} s`);
      if (problem) slow.push(`${reader}: ${name}: ${problem}`);
    }
    clearTimeout(quiet);
    const { exitCode, signal } = await running;
    if (n < names.length) {
      if (exitCode === 0) throw new Error(`${reader} left texts out`);
      slow.push(`${reader}: ${names[n]}: ended by ${signal ?? exitCode}`);
      tried++;
      n++;
    }
  }
  console.log(`${reader.padEnd(14)} ${String(names.length).padStart(3)} texts, at most ${most.toFixed(2)} s (${at})`);
}

if (wanted.length === 0 || wanted.includes('memory')) {
  // Half of what is allowed for the heap; what lies outside of it, the text among it, comes on top.
  const heap = ['--max-old-space-size=300'];
  for (const kind of ['cues', 'one cue', 'words']) {
    const { stdout, exitCode } = await execa(process.execPath, [...heap, CHILD, 'memory', kind], { reject: false });
    console.log(`captions of 8 million characters, ${kind}: ${exitCode === 0 ? stdout : `ended by ${exitCode}`}`);
    if (exitCode !== 0 || Number.parseInt(stdout, 10) >= 400) slow.push(`captions, ${kind}: ${stdout}`);
  }
}
console.log(`${tried} texts of 1 MB read, ${slow.length} amiss${slow.length > 0 ? `:\n  ${slow.join('\n  ')}` : ''}`);
process.exitCode = slow.length > 0 ? 1 : 0;
