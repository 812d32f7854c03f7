import { createHmac } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Raw } from '../../core/check/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import type { FilesNamed } from '../../core/read/index.ts';
import { type FileSum, placeFile, privateFolder, type ReadKey } from '../files/index.ts';

/** What came of reading a lesson, a translation, a recording or the table of a machine. */
export interface ReadKept extends ReadKey {
  readonly diagnostics: readonly Diagnostic[];
  readonly broken: readonly string[];
  /** Of a lesson or recording what is wanted without its text, of a machine all; absent where it cannot be read. */
  readonly front?: Front;
  /** Ids that a lesson names, a line each. */
  readonly names?: string;
}

/** A part of a thing that was read. */
export interface Front {
  /** What is wanted at every check. */
  readonly ids: Readonly<Record<string, unknown>>;
  /** Other values as bytes (`node:v8`), so that a thousand of them are not read where nobody asks. */
  readonly rest: Uint8Array;
}

/** What the rules found in a lesson, recording or machine by itself. */
export interface FoundKept {
  /** Of all that the rules were given. */
  readonly key: string;
  readonly found: readonly Raw[];
}

/** All that is kept of a check for the next one. Each is a list by name, so that it is quickly read back. */
export interface CheckKept {
  readonly files: readonly (readonly [string, FileSum])[];
  readonly reads: readonly (readonly [string, ReadKept])[];
  readonly found: readonly (readonly [string, FoundKept])[];
  /** By recording, the files it names, and by what text of its own and of the shop. */
  readonly named: readonly (readonly [string, FilesNamed & { readonly key: string }])[];
  /** By recording, where somebody is heard in it, and by what files that was found. */
  readonly speech: readonly (readonly [string, { readonly key: string; readonly heard?: HeardSpeech }])[];
}

const NOTHING: CheckKept = { files: [], reads: [], found: [], named: [], speech: [] };

function pathOf(content: string): string {
  return join(content, '.liftside', 'check.kept');
}

/**
 * What an earlier check has kept; nothing where there is none, where it is damaged, or where another program wrote it.
 * It begins with a seal by the sum of the program: what somebody put into a content folder is not believed.
 *
 * @returns it, and its bytes
 */
export async function loadKept(
  content: string,
  program: string,
): Promise<{ readonly kept: CheckKept; readonly bytes: Buffer }> {
  const whole = await readFile(pathOf(content)).catch(() => Buffer.alloc(0));
  const end = whole.indexOf('\n');
  const bytes = whole.subarray(end + 1);
  if (end === -1 || whole.toString('latin1', 0, end) !== seal(bytes, program))
    return { kept: NOTHING, bytes: Buffer.alloc(0) };
  return { kept: deserialize(bytes), bytes };
}

/**
 * Keeps it; a folder that cannot be written to only makes the next check slower.
 *
 * @param before what the last check has kept: nothing is written where that is the same
 */
export async function saveKept(content: string, program: string, kept: CheckKept, before: Buffer): Promise<void> {
  // Maps and all, as they are in memory: JSON has no word for those of places.
  const bytes = serialize(kept);
  if (bytes.equals(before)) return;
  try {
    await privateFolder(content);
    await placeFile(pathOf(content), Buffer.concat([Buffer.from(`${seal(bytes, program)}\n`), bytes]));
  } catch {
    // Read-only content is fine to check.
  }
}

function seal(bytes: Buffer, program: string): string {
  return createHmac('sha256', program).update(bytes).digest('base64url');
}
