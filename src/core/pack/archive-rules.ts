import { nameClashes, packageNameReason } from './names.ts';

/** One entry of a zip file as its central directory has it (ISO/IEC 21320-1; PKWARE APPNOTE 4.3.12). */
export interface ArchiveEntry {
  readonly name: string;
  /** What its own header, before its bytes, calls it; left out where that was not read. */
  readonly headerName?: string;
  /** Unpacked, as it says. */
  readonly bytes: number;
  /** In the archive. */
  readonly packed: number;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly encrypted: boolean;
  /** File type and permissions of Unix; 0 where it tells none. */
  readonly mode: number;
  /** Of its header in the archive. */
  readonly offset: number;
}

/** More than any lesson has, few enough to be looked at one by one. */
const MOST_ENTRIES = 20_000;
/** Text is pressed to a tenth; a thousandth is what a bomb is made of. Looked at from so many bytes on. */
const MOST_RATIO = 100;
const RATIO_FROM = 1 << 20;
/** The least that stands between two headers: a local header without its name. APPNOTE 4.3.7. */
const HEADER_BYTES = 30;

const KIND = 0o170000;
const PLAIN = 0o100000;
const FOLDER = 0o040000;
const LINK = 0o120000;

/** What file managers put into an archive beside what was meant: passed by, never unpacked. */
export function isLitter(name: string): boolean {
  const parts = name.split('/');
  return parts[0] === '__MACOSX' || ['Thumbs.db', 'desktop.ini'].includes(parts.at(-1) ?? '') || hidden(parts);
}

function hidden(parts: readonly string[]): boolean {
  return parts.some((part) => /^\.[^.]/.test(part)) && !parts.includes('..');
}

/**
 * Why an archive is not opened, by the name of the entry; nothing where it may be. Asked before anything of it is
 * unpacked: what it says here is what its reader holds it to.
 */
export function archiveProblem(entries: readonly ArchiveEntry[]): string | undefined {
  if (entries.length > MOST_ENTRIES) return `it has ${entries.length} entries, more than ${MOST_ENTRIES}`;
  for (const entry of entries) {
    const reason = entryProblem(entry);
    if (reason !== undefined) return `${JSON.stringify(entry.name)}: ${reason}`;
  }
  const files = entries.filter(({ name }) => !name.endsWith('/') && !isLitter(name)).map(({ name }) => name);
  const [clash] = nameClashes(files);
  if (clash)
    return clash[0] === clash[1]
      ? `${JSON.stringify(clash[0])}: it stands in the archive twice`
      : `${JSON.stringify(clash[1])}: on many disks it is the same name as ${JSON.stringify(clash[0])}`;
  return overlap(entries);
}

function entryProblem({ name, headerName, bytes, packed, method, encrypted, mode }: ArchiveEntry): string | undefined {
  const kind = mode & KIND;
  if (kind === LINK) return 'it is a link';
  if (kind !== 0 && kind !== PLAIN && kind !== FOLDER) return 'it is neither a file nor a folder';
  if (encrypted) return 'it is encrypted';
  if (method !== 0 && method !== 8) return `it is packed in a way (${method}) that is not read`;
  if (headerName !== undefined && headerName !== name)
    return `at its place in the archive it is called ${JSON.stringify(headerName)}`;
  if (method === 0 && bytes !== packed) return `it is stored, and ${packed} bytes cannot hold its ${bytes}`;
  if (bytes > RATIO_FROM && bytes > packed * MOST_RATIO)
    return `${packed} bytes claim to hold ${bytes}, more than ${MOST_RATIO} times as many`;
  if (isLitter(name)) return undefined;
  return packageNameReason(name.replace(/\/$/, ''));
}

/** Entries that share bytes, so that a small archive holds much. */
function overlap(entries: readonly ArchiveEntry[]): string | undefined {
  let end = 0;
  for (const { name, offset, packed } of entries.toSorted((a, b) => a.offset - b.offset)) {
    if (offset < end) return `${JSON.stringify(name)}: it shares its bytes with another entry`;
    end = offset + HEADER_BYTES + packed;
  }
  return undefined;
}
