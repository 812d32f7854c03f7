import { lstat } from 'node:fs/promises';
import { join } from 'node:path';

/** An absolute path that was found to lie in the content folder, or why it does not. */
export type Inside = { readonly ok: true; readonly path: string } | { readonly ok: false; readonly problem: string };

/**
 * Finds a file named by its path in the content folder. Refused are `..`, absolute paths, hidden files, and every
 * symbolic link on the way, because what it points at may lie anywhere.
 *
 * @param content absolute path
 * @param file relative path with `/`
 */
export async function insideContent(content: string, file: string): Promise<Inside> {
  const parts = file.split('/');
  const odd = parts.some((part) => part === '' || part.startsWith('.') || /[\\\0:]/.test(part));
  if (odd) return { ok: false, problem: `${JSON.stringify(file)} is not a path inside the content folder` };
  let path = content;
  for (const part of parts) {
    path = join(path, part);
    const known = await lstat(path).catch(() => undefined);
    if (known?.isSymbolicLink()) return { ok: false, problem: `${file} goes through a symbolic link` };
  }
  return { ok: true, path };
}

/** The files the cutting room writes. */
export function mayWrite(file: string): boolean {
  return /^(recordings\/[a-z0-9]+(-[a-z0-9]+)*\.yaml|lessons\/[a-z0-9]+(-[a-z0-9]+)*\.mdx)$/.test(file);
}
