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
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? (error instanceof Error ? error.message : String(error));
}
