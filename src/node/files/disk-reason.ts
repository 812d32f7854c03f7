import { errorCode } from './error-code.ts';

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full for this user',
  EFBIG: 'the file has grown past what this disk or account allows',
  EIO: 'the disk does not answer as it should',
  EISDIR: 'there is a folder of that name',
  ENOTDIR: 'a part of the path is a file, not a folder',
  ENOENT: 'its folder is not there',
  ELOOP: 'a link there leads in a circle',
  ENAMETOOLONG: 'the name is too long for this disk',
  EMFILE: 'this user has too many files open',
  ENFILE: 'too many files are open on this machine',
};

/** Why the system did not read or write a file, in words. Codes: POSIX.1-2024. */
export function diskReason(error: unknown): string {
  return diskProblem(error) ?? (error instanceof Error ? error.message : String(error));
}

/** Why the system did not read a file, in words. */
export function readReason(error: unknown): string {
  return UNREAD[errorCode(error) ?? ''] ?? diskReason(error);
}

const UNREAD: Readonly<Record<string, string>> = {
  EACCES: 'this user may not read it',
  EPERM: 'this user may not read it',
  ENOENT: 'it was there a moment ago, and is gone',
  ENXIO: 'it is a socket or a device, not a file',
};

/**
 * Why the disk refused, in words, where that is what an error says: by its code, by that of its cause, or by the
 * system's own words, which is all that programs in other languages hand over. Nothing where it is something else.
 */
export function diskProblem(error: unknown): string | undefined {
  for (let at = error, depth = 0; at instanceof Error && depth < 5; at = at.cause, depth++) {
    const known = REASONS[errorCode(at) ?? ''];
    if (known !== undefined) return known;
    const { message } = at;
    const spoken = Object.entries(SPOKEN).find(([, words]) => words.test(message));
    if (spoken) return REASONS[spoken[0]];
  }
  return undefined;
}

/** How the C library and Rust say it (strerror of glibc and musl). */
const SPOKEN: Readonly<Record<string, RegExp>> = {
  ENOSPC: /\bENOSPC\b|No space left on device/,
  EDQUOT: /\bEDQUOT\b|quota exceeded/i,
  EROFS: /\bEROFS\b|Read-only file system/,
  EACCES: /\bEACCES\b|Permission denied/,
};
