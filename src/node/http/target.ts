/** What a request asks for, taken apart. */
export interface Target {
  readonly url: URL;
  /** Percent-decoded; begins with one `/`, has no backslash, no control character and no `.` or `..` for a part. */
  readonly path: string;
}

/**
 * Reads a request target in origin form (RFC 9112, 3.2.1): a path that begins with `/`, then perhaps a query.
 *
 * Everything else a client may write there (`//`, `http://[`, `*`, a broken escape, a hidden NUL) would be understood
 * one way by the one who checks it and another way by the one who opens the file. So it is not understood at all.
 *
 * @returns nothing where it is not understood: the answer is 400
 */
export function readTarget(text: string | undefined): Target | undefined {
  if (text === undefined || !/^\/(?!\/)[\x21-\x7e]*$/.test(text)) return undefined;
  try {
    const written = decodeURIComponent(text.split(/[?#]/)[0] ?? '');
    const parts = written.split('/');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    if (/[\\\x00-\x1f\x7f]/.test(written) || parts.some((part) => part === '.' || part === '..')) return undefined;
    return { url: new URL(text, 'http://local'), path: written };
  } catch {
    return undefined;
  }
}
