import { createHmac, hash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Raw } from '../../core/check/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import type { FilesNamed } from '../../core/read/index.ts';
import { type FileSum, placeFile, privateFolder, type ReadKey } from '../files/index.ts';

/** What came of reading a file. */
export interface ReadKept extends ReadKey {
  readonly diagnostics: readonly Diagnostic[];
  readonly broken: readonly string[];
  /** Of a lesson or recording what is wanted without its text, of others all; absent where it cannot be read. */
  readonly front?: Front;
  /** Ids that a lesson names, a line each, in UTF-8. */
  readonly names?: Uint8Array;
}

/** A part of a thing that was read. */
export interface Front {
  /** What is wanted at every check. */
  readonly ids: Readonly<Record<string, unknown>>;
  /** Other values as bytes (`node:v8`), so that a thousand of them are not read where nobody asks. */
  readonly rest: Uint8Array;
}

/** What the rules found in a lesson, recording or machine by itself, or around them. */
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
  /** The further languages of the shop, and by what text of its file. */
  readonly languages?: { readonly key: string; readonly tags: readonly string[] };
  /** By recording, the files it names, and by what text of its own and of the shop. */
  readonly named: readonly (readonly [string, FilesNamed & { readonly key: string }])[];
  /** By recording, where somebody is heard in it, and by what files that was found. */
  readonly speech: readonly (readonly [string, { readonly key: string; readonly heard?: HeardSpeech }])[];
}

/** From where to where something lies in the long bytes. */
type Stretch = readonly [start: number, end: number];

/**
 * As it lies on the disk: a line of JSON, which is read back in a fraction of the time that `node:v8` takes for many small
 * things, and behind it, as bytes, what is long or seldom there.
 */
interface Stored extends Pick<CheckKept, 'languages' | 'named'> {
  /** Name, sum and stamp (empty for none) of each file, one after the other. */
  readonly files: readonly string[];
  readonly reads: readonly (readonly [
    string,
    ReadKey & {
      readonly told?: Stretch;
      readonly ids?: Front['ids'];
      readonly rest?: Stretch;
      readonly names?: Stretch;
    },
  ])[];
  readonly found: readonly (readonly [string, string, Stretch?])[];
  readonly speech: Stretch;
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
export function loadKept(content: string, program: string): { readonly kept: CheckKept; readonly bytes: Uint8Array } {
  const nothing = { kept: NOTHING, bytes: Buffer.alloc(0) };
  try {
    const whole = readFileSync(pathOf(content));
    const end = whole.indexOf('\n');
    const bytes = whole.subarray(end + 1);
    return whole.toString('latin1', 0, end) === seal(bytes, program) ? { kept: unpack(bytes), bytes } : nothing;
  } catch {
    // Not there, or not to be read.
    return nothing;
  }
}

/**
 * Keeps it; a folder that cannot be written to only makes the next check slower.
 *
 * @param before what the last check has kept: nothing is written where that is the same
 */
export async function saveKept(content: string, program: string, kept: CheckKept, before: Uint8Array): Promise<void> {
  const bytes = pack(kept);
  if (bytes.equals(before)) return;
  try {
    await privateFolder(content);
    await placeFile(pathOf(content), Buffer.concat([Buffer.from(`${seal(bytes, program)}\n`), bytes]));
  } catch {
    // Read-only content is fine to check.
  }
}

function pack({ files, reads, found, languages, named, speech }: CheckKept): Buffer {
  const long: Uint8Array[] = [];
  let length = 0;
  const put = (piece: Uint8Array): Stretch => {
    long.push(piece);
    length += piece.length;
    return [length - piece.length, length];
  };
  // Maps and all, as they are in memory: JSON has no word for those of places.
  const stored: Stored = {
    ...(languages && { languages }),
    named,
    files: files.flatMap(([file, { sum, stamp = '' }]) => [file, sum, stamp]),
    reads: reads.map(([file, { asked, key, diagnostics, broken, front, names }]) => [
      file,
      {
        ...{ asked, key },
        ...(diagnostics.length + broken.length > 0 && { told: put(serialize({ diagnostics, broken })) }),
        ...(front && { ids: front.ids, rest: put(front.rest) }),
        ...(names && { names: put(names) }),
      },
    ]),
    found: found.map(([of, { key, found }]) => (found.length > 0 ? [of, key, put(serialize(found))] : [of, key])),
    speech: put(serialize(speech)),
  };
  return Buffer.concat([Buffer.from(`${JSON.stringify(stored)}\n`), ...long]);
}

function unpack(bytes: Buffer): CheckKept {
  const end = bytes.indexOf('\n');
  const { files, reads, found, speech, ...others }: Stored = JSON.parse(bytes.toString('utf8', 0, end));
  const long = bytes.subarray(end + 1);
  const at = ([from, to]: Stretch) => long.subarray(from, to);
  const told = (stretch: Stretch | undefined): Pick<ReadKept, 'diagnostics' | 'broken'> =>
    stretch ? deserialize(at(stretch)) : { diagnostics: [], broken: [] };
  return {
    ...others,
    files: Array.from({ length: files.length / 3 }, (_, index) => {
      const [file = '', sum = '', stamp = ''] = files.slice(3 * index, 3 * index + 3);
      return [file, { sum, ...(stamp !== '' && { stamp }) }];
    }),
    reads: reads.map(([file, { asked, key, told: own, ids, rest, names }]) => [
      file,
      {
        ...{ asked, key },
        ...told(own),
        ...(ids && rest && { front: { ids, rest: at(rest) } }),
        ...(names && { names: at(names) }),
      },
    ]),
    found: found.map(([of, key, own]) => [of, { key, found: own ? deserialize(at(own)) : [] }]),
    speech: deserialize(at(speech)),
  };
}

function seal(bytes: Uint8Array, program: string): string {
  // Of the sum, which is quickly made of many bytes at once.
  return createHmac('sha256', program).update(hash('sha256', bytes)).digest('base64url');
}
