import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { po } from 'gettext-parser';
import type { Locale, Messages } from '../../core/locale/index.ts';
import type { Shop } from '../../core/model/index.ts';
import { languagesOf, scriptJson } from '../../core/pages/index.ts';

/** Where the texts of the program lie, one file a language. */
const LOCALES = join(import.meta.dirname, '../../locales');

/** A language of the site. */
export interface SiteLocale extends Locale {
  /** Those of its messages that scripts of pages say, and pages hand to them. */
  readonly forScripts: Messages;
  /** Those that the windows of a class day say to the room. */
  readonly forDay: Messages;
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
  if (text === undefined) return { tag, messages: {}, forScripts: {}, forDay: {} };
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
    forScripts: messagesOf(entries.filter(({ comments }) => BY_SCRIPTS.test(comments?.reference ?? ''))),
    forDay: messagesOf(entries.filter(({ comments }) => BY_DAY.test(comments?.reference ?? ''))),
  };
}

/** Texts of the site's scripts, and of what scripts and pages share; what search is handed is worded already. */
const BY_SCRIPTS = /(?:^|\s)src\/(?:browser\/(?!present\/)|core\/(?!(?:pages|search)\/))/;
/** Texts of the windows of a class day, and the signal words, which they share with pages. */
const BY_DAY = /(?:^|\s)src\/(?:browser\/present\/|core\/pages\/signal-text\.ts)/;

/** The language of a shop's own windows and papers. */
export function readShopLocale({ info }: Pick<Shop, 'info'>): Promise<SiteLocale> {
  return readLocale(languagesOf(info)[0]);
}

/** The messages that a page hands to its scripts; nothing where they speak English. */
export function messagesElement(messages: Messages): string {
  return Object.keys(messages).length === 0
    ? ''
    : `<script type="application/json" id="messages">${scriptJson(messages)}</script>\n`;
}
