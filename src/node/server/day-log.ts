import { constants } from 'node:fs';
import { open, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { anchorSchema, type ClockAnchor, type DayEvent, type DayLog, dayEventSchema } from '../../core/day/index.ts';
import { privateFolder, withContentLock } from '../files/index.ts';

const lineSchema = z.union([z.strictObject({ event: dayEventSchema }), z.strictObject({ anchor: anchorSchema })]);

async function logPath(content: string, of: string): Promise<string> {
  return join(await privateFolder(content, 'day'), `${of}.jsonl`);
}

/** Everything written down of a class, each event once; a line that was cut off by a crash is left out. */
export async function readDayLog(content: string, of: string): Promise<DayLog> {
  const text = await readFile(await logPath(content, of), 'utf8').catch(() => '');
  const events = new Map<string, DayEvent>();
  let anchor: ClockAnchor | undefined;
  for (const line of text.split('\n')) {
    const read = lineOf(line);
    if (read && 'anchor' in read) anchor = read.anchor;
    else if (read && !events.has(read.event.id)) events.set(read.event.id, read.event);
  }
  return { events: [...events.values()], ...(anchor && { anchor }) };
}

function lineOf(line: string): z.infer<typeof lineSchema> | undefined {
  if (line === '') return undefined;
  try {
    return lineSchema.safeParse(JSON.parse(line)).data;
  } catch {
    return undefined;
  }
}

/** Adds at the end, and never through a link: what it leads to is somebody's own. */
const ADD = constants.O_APPEND | constants.O_CREAT | constants.O_WRONLY | (constants.O_NOFOLLOW ?? 0);

/**
 * Writes events down and flushes them to the disk, with what the clocks show; those that are there already are not
 * written again.
 *
 * @returns everything that is written down now
 * @throws when the disk does not take them; the log then holds what it held
 */
export function addToDayLog(
  content: string,
  of: string,
  events: readonly DayEvent[],
  anchor: ClockAnchor,
): Promise<DayLog> {
  return withContentLock(content, 'the log of a class', async () => {
    const before = await readDayLog(content, of);
    const known = new Set(before.events.map(({ id }) => id));
    const fresh = events.filter(({ id }) => !known.has(id));
    const lines = [...fresh.map((event) => ({ event })), { anchor }].map((line) => JSON.stringify(line));
    const handle = await open(await logPath(content, of), ADD);
    const { size } = await handle.stat();
    try {
      // A line of its own even where a crash left half a line before it.
      await handle.appendFile(`\n${lines.join('\n')}\n`);
      await handle.sync();
    } catch (error) {
      await handle.truncate(size).catch(() => undefined);
      throw error;
    } finally {
      await handle.close();
    }
    return { events: [...before.events, ...fresh], anchor };
  });
}

/** Lays the log aside, so that the class begins anew; it stays beside the new one, under the moment it was laid aside. */
export async function layDayLogAside(content: string, of: string, now: number): Promise<void> {
  const path = await logPath(content, of);
  await rename(path, path.replace(/\.jsonl$/, `.${now}.jsonl`)).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOENT') throw error;
  });
}
