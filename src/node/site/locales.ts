import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { po } from 'gettext-parser';
import type { Locale, Messages } from '../../core/locale/index.ts';

/** Where the texts of the program lie, one file a language. */
const LOCALES = join(import.meta.dirname, '../../locales');

/** A language of the site. */
export interface SiteLocale extends Locale {
  /** Those of its messages that scripts of pages say, and pages hand to them. */
  readonly forScripts: Messages;
}

/**
 * The texts of the program in a language: `es.po` for `es` and for `es-MX`.
 * Where there is no such file, none: its pages are worded in English.
 *
 * @param tag BCP 47
 */
export async function readLocale(tag: string, folder = LOCALES): Promise<SiteLocale> {
  const file = join(folder, `${new Intl.Locale(tag).language}.po`);
  const text = await readFile(file, 'utf8').catch(() => undefined);
  if (text === undefined) return { tag, messages: {}, forScripts: {} };
  const entries = Object.values(po.parse(text).translations[''] ?? {}).filter(({ msgid }) => msgid !== '');
  const messagesOf = (some: typeof entries): Messages =>
    Object.fromEntries(
      some
        .filter(({ msgstr }) => msgstr.every((form) => form !== ''))
        .map(({ msgid, msgid_plural, msgstr }) => [msgid, msgid_plural === undefined ? (msgstr[0] ?? '') : msgstr]),
    );
  return {
    tag,
    messages: messagesOf(entries),
    forScripts: messagesOf(entries.filter(({ comments }) => saidByScripts(comments?.reference ?? ''))),
  };
}

/** True for texts of scripts, and of what scripts and pages share; what search is handed is worded already. */
function saidByScripts(places: string): boolean {
  return places.split(/\s+/).some((place) => /^src\/(browser|core\/(?!(?:pages|search)\/))/.test(place));
}
