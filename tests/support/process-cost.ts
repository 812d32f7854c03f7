import { spawnSync } from 'node:child_process';
import { optionsTyped } from './as-typed.ts';

/** What a process has cost from its start to its end. */
export interface Cost {
  /** Of the processors, s. */
  readonly seconds: number;
  /** By the clock, s. */
  readonly clock: number;
  /** Most memory that it had at a time. */
  readonly bytes: number;
}

/** Says it as the last line of what a process writes to its error output. */
const REPORT = `process.on('exit', () => { const { user, system } = process.cpuUsage();
  console.error(JSON.stringify({ seconds: (user + system) / 1e6, clock: performance.now() / 1e3, bytes: process.resourceUsage().maxRSS * 1024 })) })`;

/** Runs a script in a process of its own, started as the typed command is. */
export function costOf(script: string, ...args: readonly string[]): Cost & { readonly out: string } {
  const hook = `data:text/javascript,${encodeURIComponent(REPORT)}`;
  const call = [...optionsTyped(), '--import', hook, script, ...args];
  const { stdout, stderr } = spawnSync(process.execPath, call, { encoding: 'utf8', maxBuffer: 1e8 });
  return { ...JSON.parse(stderr.trim().split('\n').at(-1) ?? ''), out: stdout.trimEnd() };
}

/** As a line of a table. */
export function costInWords({ seconds, clock, bytes }: Cost): string {
  return `${clock.toFixed(2).padStart(7)} s by the clock, ${seconds.toFixed(2).padStart(7)} s of the processors, ${(bytes / 1e6).toFixed(0).padStart(5)} MB`;
}
