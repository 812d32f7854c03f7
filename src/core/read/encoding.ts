import type { Diagnostic } from '../model/index.ts';
import { tell } from './faults.ts';
import { Points } from './points.ts';

/** Says that a text is no UTF-8: a character of it could not be read, or every other byte is nought. */
export function encodingFault(file: string, text: string): { readonly fault?: Diagnostic; readonly readable: boolean } {
  const at = text.search(/[\0\uFFFD]/);
  if (at === -1) return { readable: true };
  const wide = text.includes('\0');
  const help = 'save the file as UTF-8, as every editor can';
  const message = wide
    ? 'the text is in UTF-16, or is none'
    : 'a letter here is not in UTF-8, so it cannot be known which it is';
  const place = new Points(file, text).place(at, at + 1);
  return { fault: tell('file-encoding', place, message, help), readable: !wide };
}

/** The text without a byte order mark, which would shift every offset by one. */
export function withoutMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}
