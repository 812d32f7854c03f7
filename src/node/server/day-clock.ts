import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { uptime } from 'node:os';
import type { ClockReading } from '../../core/day/index.ts';

/** Of this process: where the system has no name for its run, a new process cannot know whether it is the same one. */
const OWN_RUN = randomUUID();

/**
 * What this machine's clocks show now. `uptime` counts on while the machine sleeps and is never set.
 *
 * @param now milliseconds since 1970
 */
export async function readClock(now: number): Promise<ClockReading> {
  const run = await readFile('/proc/sys/kernel/random/boot_id', 'utf8').catch(() => OWN_RUN);
  return { run: run.trim(), steady: uptime(), wall: now };
}
