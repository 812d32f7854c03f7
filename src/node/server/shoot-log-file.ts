import { mkdir, open, readFile, truncate } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Tap } from '../../core/edit/index.ts';
import { privateFolder, withContentLock } from '../files/index.ts';

const common = { id: z.string().min(1).max(80), at: z.number().int().nonnegative() };
const step = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(200);
const take = z.number().int().positive().max(999);

/** A tap as a phone sends it. */
export const tapSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, kind: z.literal('begin'), step, take }),
  z.strictObject({ ...common, kind: z.literal('good'), step, take }),
  z.strictObject({ ...common, kind: z.literal('bad'), step, take }),
  z.strictObject({ ...common, kind: z.literal('rest') }),
  z.strictObject({ ...common, kind: z.literal('clap') }),
  z.strictObject({ ...common, kind: z.literal('camera'), shows: z.string().regex(/^\d{2}:\d{2}:\d{2}[:;]\d{2}$/) }),
]);

async function logPath(content: string, lesson: string): Promise<string> {
  const folder = join(await privateFolder(content), 'shoot-log');
  await mkdir(folder, { recursive: true });
  return join(folder, `${lesson}.jsonl`);
}

/** Every tap of a lesson's shoot log; a line that was cut off by a crash is left out. */
export async function readTaps(content: string, lesson: string): Promise<Tap[]> {
  const text = await readFile(await logPath(content, lesson), 'utf8').catch(() => '');
  return text.split('\n').flatMap((line) => {
    try {
      const tap = tapSchema.safeParse(JSON.parse(line));
      return tap.success ? [tap.data] : [];
    } catch {
      return [];
    }
  });
}

/**
 * Adds taps at the end of the log and flushes them, all or none; those that are in it already are not written again,
 * also where two posts of one tap come at once.
 *
 * @throws what the disk says; the log then holds what it held
 */
export function addTaps(content: string, lesson: string, taps: readonly Tap[]): Promise<void> {
  return withContentLock(content, 'the shoot log', () => append(content, lesson, taps));
}

async function append(content: string, lesson: string, taps: readonly Tap[]): Promise<void> {
  const known = new Set((await readTaps(content, lesson)).map(({ id }) => id));
  const fresh = taps.filter(({ id }) => !known.has(id));
  if (fresh.length === 0) return;
  const path = await logPath(content, lesson);
  const handle = await open(path, 'a');
  const { size } = await handle.stat();
  try {
    // A line of its own even where a crash left half a line before it.
    await handle.appendFile(`\n${fresh.map((tap) => JSON.stringify(tap)).join('\n')}\n`);
    await handle.sync();
  } catch (error) {
    // What a full disk has taken of it goes again: the phone keeps its taps and sends them once more.
    await truncate(path, size).catch(() => undefined);
    throw error;
  } finally {
    await handle.close();
  }
}
