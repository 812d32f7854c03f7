import { constants } from 'node:fs';
import { open, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Tap } from '../../core/edit/index.ts';
import { idSchema } from '../../core/model/index.ts';
import { privateFolder, withContentLock } from '../files/index.ts';

const lesson = idSchema.max(200);
const step = lesson;
const common = { id: z.string().min(1).max(80), lesson, at: z.number().int().nonnegative() };
const take = z.number().int().positive().max(999);

/** A tap as a phone sends it: it says itself which lesson it belongs to, whatever the cutting room shows meanwhile. */
export type LoggedTap = Tap & { readonly lesson: string };

export const tapSchema: z.ZodType<LoggedTap> = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, kind: z.literal('begin'), step, take }),
  z.strictObject({ ...common, kind: z.literal('good'), step, take }),
  z.strictObject({ ...common, kind: z.literal('bad'), step, take }),
  z.strictObject({ ...common, kind: z.literal('rest') }),
  z.strictObject({ ...common, kind: z.literal('clap') }),
  z.strictObject({ ...common, kind: z.literal('camera'), shows: z.string().regex(/^\d{2}:\d{2}:\d{2}[:;]\d{2}$/) }),
]);

/** Taps that are sent or handed over together. */
export const tapsSchema = z.strictObject({ taps: z.array(tapSchema).max(500) });

async function logPath(content: string, of: string): Promise<string> {
  return join(await privateFolder(content, 'shoot-log'), `${of}.jsonl`);
}

/** Every tap of a lesson's shoot log, once; a line that was cut off by a crash is left out. */
export async function readTaps(content: string, of: string): Promise<LoggedTap[]> {
  const text = await readFile(await logPath(content, of), 'utf8').catch(() => '');
  const taps = text.split('\n').flatMap((line): LoggedTap[] => {
    try {
      // Older logs leave the lesson out: the file's name is it.
      const tap = tapSchema.safeParse({ lesson: of, ...JSON.parse(line) });
      return tap.success && tap.data.lesson === of ? [tap.data] : [];
    } catch {
      return [];
    }
  });
  return [...new Map(taps.map((tap) => [tap.id, tap])).values()];
}

/** Adds at the end, and never through a link: what it leads to is somebody's own. */
const ADD = constants.O_APPEND | constants.O_CREAT | constants.O_WRONLY | (constants.O_NOFOLLOW ?? 0);

/** The last one who wrote in this process: the next one waits here, instead of many pressing for the lock. */
let last: Promise<unknown> = Promise.resolve();

/**
 * Adds taps at the end of the logs of their lessons and flushes them to the disk; those that are in it already are not
 * written again, however often and from however many sides they come.
 *
 * @returns lessons whose log has grown
 * @throws when the disk does not take them; a log then holds what it held, and the phone keeps its taps
 */
export function addTaps(content: string, taps: readonly LoggedTap[]): Promise<string[]> {
  const turn = last.then(() => withContentLock(content, 'the shoot log', () => addToLogs(content, taps)));
  last = turn.catch(() => undefined);
  return turn;
}

async function addToLogs(content: string, taps: readonly LoggedTap[]): Promise<string[]> {
  const grown: string[] = [];
  for (const of of new Set(taps.map((tap) => tap.lesson))) {
    const own = taps.filter((tap) => tap.lesson === of);
    if (await append(content, of, own)) grown.push(of);
  }
  return grown;
}

async function append(content: string, of: string, taps: readonly LoggedTap[]): Promise<boolean> {
  const known = new Set((await readTaps(content, of)).map(({ id }) => id));
  const fresh = [...new Map(taps.filter(({ id }) => !known.has(id)).map((tap) => [tap.id, tap])).values()];
  if (fresh.length === 0) return false;
  const path = await logPath(content, of);
  const handle = await open(path, ADD);
  const { size } = await handle.stat();
  try {
    // A line of its own even where a crash left half a line before it.
    await handle.appendFile(`\n${fresh.map((tap) => JSON.stringify(tap)).join('\n')}\n`);
    await handle.sync();
  } catch (error) {
    // What a full disk has taken of it goes again: the phone keeps its taps and sends them once more.
    await handle.truncate(size).catch(() => undefined);
    throw error;
  } finally {
    await handle.close();
  }
  return true;
}
