/**
 * Why a name is not a path inside a folder; nothing where it is one.
 *
 * The one rule for every name that content, a package or a request gives: relative, with `/`, and normalised, so that
 * two names of one file cannot differ. Refused are `..` and `.`, absolute paths, drive letters and other colons,
 * backslashes, control characters, empty parts and parts that begin with a dot, which hold what Liftside and other
 * programs keep for themselves. It knows no disk: whether a link leads out is found where the file is opened or placed
 * (`node/files/inside.ts`).
 */
export function outsideReason(name: string): string | undefined {
  if (name === '') return 'it is empty';
  if (/^[/\\]|^[a-z]:/i.test(name)) return 'it is counted from the root of a disk, not from the folder';
  if (name.includes('\\')) return 'folders are parted by /, not by \\';
  if ([...name].some((sign) => sign < ' ' || sign === '\u007f')) return 'it holds a character that cannot be seen';
  if (name.includes(':')) return 'it holds a colon, which not every system can keep in a name';
  const parts = name.split('/');
  if (parts.includes('..')) return '.. leads out of the folder';
  if (parts.some((part) => part === '' || part === '.')) return 'it goes a way round: no part may be empty or .';
  if (parts.some((part) => part.startsWith('.'))) return 'a name that begins with a dot is hidden';
  return undefined;
}

/** A path as a part of an address: each name by itself, so that the strokes between them stay (RFC 3986, 3.3). */
export function encodePath(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}
