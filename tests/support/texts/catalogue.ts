import { globSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type GetTextTranslation, type GetTextTranslations, po } from 'gettext-parser';
import { type TextFound, textsIn } from './collect.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
/** Where the texts of the program lie. */
export const LOCALES = resolve(ROOT, 'src/locales');

/** Where somebody meets a text, and the files that say it; the first that fits counts. */
const SECTIONS: readonly (readonly [name: string, files: RegExp])[] = [
  ['class day', /^src\/(?:browser\/present|core\/day|core\/fit)\//],
  ['phone', /^src\/(?:browser\/(?:class-phone|shoot-log))\//],
  ['cutting room', /^src\/(?:browser\/cutting-room|core\/(?:edit|media|words)|node\/(?:server|media|words))\//],
  ['package', /^src\/(?:browser\/school|core\/(?:book|pack|school)|node\/pack)\//],
  ['findings', /^src\/core\/(?:check|read|heard|model|collections|interchange|write)\//],
  ['command line', /^src\/node\/(?!site)/],
  ['site', /^src\//],
];

/** A text with the files it stands in. */
export interface Listed extends TextFound {
  readonly section: string;
  readonly files: readonly string[];
}

/** Every text of the program that somebody reads, each once, by where it is met first, then by file and letter. */
export function listTexts(root = ROOT): Listed[] {
  const files = globSync('src/**/*.{ts,tsx,astro}', { cwd: root })
    .map((file) => file.replaceAll('\\', '/'))
    .toSorted();
  const all = new Map<string, Listed>();
  for (const file of files)
    for (const found of textsIn(file, readFileSync(resolve(root, file), 'utf8'))) {
      const known = all.get(found.text);
      const more = known?.more ?? found.more;
      all.set(found.text, {
        text: found.text,
        ...(more === undefined ? {} : { more }),
        said: found.said || known?.said === true,
        section: known?.section ?? SECTIONS.find(([, pattern]) => pattern.test(file))?.[0] ?? 'site',
        files: known ? (known.files.includes(file) ? known.files : [...known.files, file]) : [file],
      });
    }
  const order = (section: string) => (section === 'site' ? -1 : SECTIONS.findIndex(([name]) => name === section));
  const place = ({ files, text }: Listed) => `${files[0]} ${text}`;
  return [...all.values()].toSorted((a, b) => order(a.section) - order(b.section) || (place(a) < place(b) ? -1 : 1));
}

const HEADERS = {
  'Content-Type': 'text/plain; charset=UTF-8',
  'Content-Transfer-Encoding': '8bit',
  'MIME-Version': '1.0',
};

/** The template for translators: every text, and of those that pages say in their own language that they do. */
export function templateOf(texts: readonly Listed[]): string {
  const entries = texts.map(
    (listed): GetTextTranslation => entryOf(listed, listed.more === undefined ? [''] : ['', '']),
  );
  return written({ charset: 'utf-8', headers: HEADERS, translations: { '': byText(entries) } });
}

/** What a language says already, gone over again: new texts are added empty, those that are gone are left out. */
export function renewed(text: string, texts: readonly Listed[]): string {
  const old = po.parse(text);
  const known = old.translations[''] ?? {};
  const forms = Number(/nplurals=(\d+)/.exec(old.headers['Plural-Forms'] ?? '')?.[1] ?? 2);
  const entries = texts
    .filter(({ said }) => said)
    .map((listed): GetTextTranslation => {
      const before = known[listed.text];
      const empty = Array.from({ length: listed.more === undefined ? 1 : forms }, () => '');
      const kept = before && (before.msgid_plural === undefined) === (listed.more === undefined);
      const entry = entryOf(listed, kept ? before.msgstr : empty);
      const note = before?.comments?.translator;
      return note ? { ...entry, comments: { ...entry.comments, translator: note } } : entry;
    });
  return written({ ...old, translations: { '': { '': known[''] as GetTextTranslation, ...byText(entries) } } });
}

function entryOf({ text, more, section, files, said }: Listed, msgstr: string[]): GetTextTranslation {
  return {
    msgid: text,
    ...(more === undefined ? {} : { msgid_plural: more }),
    msgstr,
    comments: {
      extracted: said ? `${section}, said in the language of the page` : section,
      reference: files.join('\n'),
    },
  };
}

function byText(entries: readonly GetTextTranslation[]): Record<string, GetTextTranslation> {
  return Object.fromEntries(entries.map((entry) => [entry.msgid, entry]));
}

function written(catalogue: GetTextTranslations): string {
  return `${po.compile(catalogue, { foldLength: 0 }).toString('utf8').trimEnd()}\n`;
}
