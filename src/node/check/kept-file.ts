import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Raw } from '../../core/check/index.ts';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import type { FilesNamed } from '../../core/read/index.ts';
import { must } from '../../core/time/index.ts';
import { type FileSum, privateFolder, type ReadKey, readSealed, replaceFile, sealed } from '../files/index.ts';
import { LostPiece, type Piece, PieceFolder, type StoredPiece } from './pieces.ts';

/** What came of reading a file. */
export interface ReadKept extends ReadKey {
  readonly diagnostics: readonly Diagnostic[];
  readonly broken: readonly string[];
  /** Of a lesson or recording what is wanted without its text, of others all; absent where it cannot be read. */
  readonly front?: Front;
  /** Ids that a lesson names, a line each, in UTF-8. */
  readonly names?: Piece;
}

/** A part of a thing that was read. */
export interface Front {
  /** What is wanted at every check. */
  readonly ids: Readonly<Record<string, unknown>>;
  /** Other values as bytes (`node:v8`), so that a thousand of them are not read where nobody asks. */
  readonly rest: Uint8Array | Piece;
}

/** What the rules found in a lesson, recording or machine by itself, or around them. */
export interface FoundKept {
  /** Of all that the rules were given. */
  readonly key: string;
  readonly found: readonly Raw[];
  /** Of a lesson, what is heard in its texts. */
  readonly heard?: Piece;
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

/** From where to where something lies in the bytes behind the list. */
type Stretch = readonly [start: number, end: number];

/** Where a piece lies: the number of its file in the list of them, from where to where, and its sum. */
type Apart = readonly [file: number, start: number, end: number, sum: string];

/**
 * As it lies on the disk: a line of JSON, which is read back in a fraction of the time that `node:v8` takes for many small
 * things, and behind it, as bytes, what is seldom there. What is long and seldom asked for lies in pieces, of which an
 * edit writes only its own.
 */
interface Stored extends Pick<CheckKept, 'languages' | 'named'> {
  /** Name, sum and stamp (empty for none) of each file, one after the other. */
  readonly files: readonly string[];
  readonly reads: readonly (readonly [
    string,
    ReadKey & {
      readonly told?: Stretch;
      readonly ids?: Front['ids'];
      readonly rest?: Stretch | Apart;
      readonly names?: Apart;
    },
  ])[];
  readonly found: readonly (readonly [of: string, key: string, found?: Stretch | 0, heard?: Apart])[];
  readonly speech: Stretch;
  /** Files of pieces. */
  readonly pieces: readonly string[];
}

export const NOTHING_KEPT: CheckKept = { files: [], reads: [], found: [], named: [], speech: [] };

function pathOf(content: string): string {
  return join(content, '.liftside', 'check.kept');
}

const PIECES = 'check.pieces';

function pieceFolder(content: string): PieceFolder {
  return new PieceFolder(join(content, '.liftside', PIECES));
}

/**
 * What an earlier check has kept; nothing where there is none, where it is damaged, or where another program wrote it.
 * It begins with a seal by the sum of the program: what somebody put into a content folder is not believed.
 */
export function loadKept(content: string, program: string): CheckKept {
  try {
    const bytes = readSealed(pathOf(content), program);
    return bytes ? unpack(bytes, pieceFolder(content)) : NOTHING_KEPT;
  } catch {
    // Not to be read.
    return NOTHING_KEPT;
  }
}

/**
 * Keeps it; a folder that cannot be written to only makes the next check slower.
 *
 * @param before what the last check has kept: nothing is written where that is the same
 */
export async function saveKept(content: string, program: string, kept: CheckKept, before: CheckKept): Promise<void> {
  if (isSame(kept, before)) return;
  try {
    await privateFolder(content, PIECES);
    const folder = pieceFolder(content);
    const places = folder.store(piecesIn(kept));
    const bytes = pack(kept, places);
    await replaceFile(pathOf(content), sealed(bytes, program));
    folder.clear(places);
  } catch (error) {
    // Read-only content is fine to check. What says where a piece lies that is lost would only be in the way.
    if (error instanceof LostPiece) await rm(pathOf(content), { force: true }).catch(() => undefined);
  }
}

/** True where nothing has been worked out anew: what was kept is taken over as it is, thing by thing. */
function isSame(kept: CheckKept, before: CheckKept): boolean {
  const lists = ['reads', 'found', 'named', 'speech'] as const;
  const sums = new Map(before.files);
  return (
    kept.languages === before.languages &&
    kept.files.length === sums.size &&
    kept.files.every(([file, { sum, stamp }]) => sums.get(file)?.sum === sum && sums.get(file)?.stamp === stamp) &&
    lists.every((list) => {
      const then = new Map<string, unknown>(before[list]);
      return kept[list].length === then.size && kept[list].every(([name, value]) => then.get(name) === value);
    })
  );
}

function piecesIn({ reads, found }: CheckKept): readonly Piece[] {
  const apart = (bytes: Uint8Array | Piece | undefined) => (bytes && 'bytes' in bytes ? [bytes] : []);
  return [
    ...reads.flatMap(([, { front, names }]) => [...apart(front?.rest), ...apart(names)]),
    ...found.flatMap(([, { heard }]) => apart(heard)),
  ];
}

function pack(kept: CheckKept, places: ReadonlyMap<Piece, StoredPiece>): Buffer {
  const { files, reads, found, languages, named, speech } = kept;
  const behind: Uint8Array[] = [];
  let length = 0;
  const put = (bytes: Uint8Array): Stretch => {
    behind.push(bytes);
    length += bytes.length;
    return [length - bytes.length, length];
  };
  const pieces = [...new Set([...places.values()].map(({ file }) => file))];
  const numbers = new Map(pieces.map((file, index) => [file, index]));
  const apart = (piece: Piece): Apart => {
    const { file, start, end, sum } = must(places.get(piece), 'where a piece lies');
    return [must(numbers.get(file), 'the number of a file'), start, end, sum];
  };
  // Maps and all, as they are in memory: JSON has no word for those of places.
  const stored: Stored = {
    ...(languages && { languages }),
    ...{ named, pieces },
    files: files.flatMap(([file, { sum, stamp = '' }]) => [file, sum, stamp]),
    reads: reads.map(([file, { asked, key, diagnostics, broken, front, names }]) => [
      file,
      {
        ...{ asked, key },
        ...(diagnostics.length + broken.length > 0 && { told: put(serialize({ diagnostics, broken })) }),
        ...(front && { ids: front.ids, rest: 'bytes' in front.rest ? apart(front.rest) : put(front.rest) }),
        ...(names && { names: apart(names) }),
      },
    ]),
    found: found.map(([of, { key, found, heard }]) => {
      const told = found.length > 0 ? put(serialize(found)) : 0;
      return heard ? [of, key, told, apart(heard)] : told === 0 ? [of, key] : [of, key, told];
    }),
    speech: put(serialize(speech)),
  };
  return Buffer.concat([Buffer.from(`${JSON.stringify(stored)}\n`), ...behind]);
}

function unpack(bytes: Buffer, folder: PieceFolder): CheckKept {
  const lineEnd = bytes.indexOf('\n');
  const { files, reads, found, speech, pieces, ...others }: Stored = JSON.parse(bytes.toString('utf8', 0, lineEnd));
  const behind = bytes.subarray(lineEnd + 1);
  const at = ([from, to]: Stretch) => behind.subarray(from, to);
  const apart = ([number, start, end, sum]: Apart): Piece => folder.at({ file: pieces[number] ?? '', start, end, sum });
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
        ...(ids && rest && { front: { ids, rest: rest.length === 2 ? at(rest) : apart(rest) } }),
        ...(names && { names: apart(names) }),
      },
    ]),
    found: found.map(([of, key, own, heard]) => [
      of,
      { key, found: own ? deserialize(at(own)) : [], ...(heard && { heard: apart(heard) }) },
    ]),
    speech: deserialize(at(speech)),
  };
}
