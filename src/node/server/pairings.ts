import { hash, timingSafeEqual } from 'node:crypto';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { placeFile, privateFolder } from '../files/index.ts';

const kept = {
  /** SHA-256 of the phone's token: whoever reads the file cannot get in with it. */
  hash: z.string(),
  /** Milliseconds since 1970. */
  until: z.number(),
};
/** What a device may do: the shoot log of a lesson, or, in a class, help to lead it or show what the room sees. */
const purposes = [
  z.strictObject({ lesson: z.string() }),
  z.strictObject({ class: z.string(), as: z.enum(['lead', 'room']) }),
] as const;
const pairing = z.union([purposes[0].extend(kept), purposes[1].extend(kept)]);
const shape = z.strictObject({
  version: z.literal(1),
  port: z.number().int(),
  addresses: z.array(z.string()),
  until: z.number(),
  phones: z.array(pairing),
});

/** That the shoot log is open to phones, where, until when, and to which: what a restart must know. */
export type Opening = Omit<z.infer<typeof shape>, 'version'>;
export type Pairing = z.infer<typeof pairing>;
export type Purpose = z.infer<(typeof purposes)[number]>;

const pathOf = async (content: string) => join(await privateFolder(content), 'phones.json');

/** What was kept; nothing where there is none, or it cannot be read. */
export async function loadOpening(content: string): Promise<Opening | undefined> {
  try {
    const read = shape.safeParse(JSON.parse(await readFile(await pathOf(content), 'utf8')));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

/** @throws when the disk does not take it */
export async function saveOpening(content: string, opening: Opening): Promise<void> {
  await placeFile(await pathOf(content), JSON.stringify({ version: 1, ...opening }), 0o600);
}

export async function forgetOpening(content: string): Promise<void> {
  await rm(await pathOf(content), { force: true });
}

export function hashOf(token: string): string {
  return hash('sha256', token);
}

/** Compares in the same time whatever is given: how long an answer takes says nothing about how much was right. */
export function sameToken(given: string, hash: string): boolean {
  return timingSafeEqual(Buffer.from(hashOf(given)), Buffer.from(hash.padEnd(64).slice(0, 64)));
}
