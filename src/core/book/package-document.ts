import { encodePath } from '../model/index.ts';
import { escapeXml } from '../pages/index.ts';
import type { BookDocument } from './lesson-documents.ts';
import { documentOf } from './xhtml.ts';

/** What a book is, as its package document says it. */
export interface BookAbout {
  /** URI that is nobody else's. */
  readonly identifier: string;
  readonly title: string;
  readonly shop: string;
  /** BCP 47 tag. */
  readonly language: string;
  /** YYYY-MM-DD */
  readonly made: string;
  /** True where values are invented, and nobody may work from them. */
  readonly invented: boolean;
}

/** Folder of a book that holds what is read; its package document lies above it. */
export const BOOK_FOLDER = 'book';
export const BOOK_DOCUMENT = 'book.opf';

/** `META-INF/container.xml`: EPUB 3.2, Open Container Format, 3.5.2.1. */
export const CONTAINER = `<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
  <rootfiles>
    <rootfile full-path="${BOOK_DOCUMENT}" media-type="application/oebps-package+xml"/>
  </rootfiles>
</container>
`;

export const BOOK_STYLES = `body { line-height: 1.45; }
.word { font-weight: bold; margin: 0 0 0.3em; }
.signal, .key-point, .discuss { border: 2px solid; padding: 0.6em; margin: 0.8em 0; }
.danger, .warning, .correction { border-width: 4px; }
.thing { border: 1px solid; border-radius: 0.2em; padding: 0 0.25em; }
figure { margin: 0.8em 0; }
img { max-width: 100%; height: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid; padding: 0.3em; text-align: left; vertical-align: top; }
.align-right { text-align: right; }
.align-center { text-align: center; }
.on-film, small { font-size: 0.85em; }
h1, h2 { page-break-after: avoid; break-after: avoid; }
section > h2 { margin-top: 1.6em; }
`;

/** The first page: what it is, from whom, and that its values may be corrected since. */
export function titlePage({ title, shop, language, made, invented }: BookAbout): BookDocument {
  const notice = invented
    ? '<div class="signal warning"><p class="word">Invented values</p><p>This shop, its machine and its figures do not exist. Do not work from these values.</p></div>'
    : '';
  const text = `<section epub:type="titlepage"><h1>${escapeXml(title)}</h1><p>${escapeXml(shop)}</p>${notice}<p>As of ${made}. Values may have been corrected since: ask the shop, or look at its site.</p></section>`;
  return { name: 'title.xhtml', title, text: documentOf(title, language, text), places: [] };
}

/** The table of contents: EPUB 3.2, Packages, 5. */
export function navigation({ title, language }: BookAbout, documents: readonly BookDocument[]): string {
  const lines = documents.map(({ name, title: heading, places }) => {
    const inside = places
      .map((place) => `<li><a href="${name}#${escapeXml(place.id)}">${escapeXml(place.title)}</a></li>`)
      .join('');
    return `<li><a href="${name}">${escapeXml(heading)}</a>${inside === '' ? '' : `<ol>${inside}</ol>`}</li>`;
  });
  return documentOf(
    title,
    language,
    `<nav epub:type="toc" id="toc"><h1>Contents</h1><ol>\n${lines.join('\n')}\n</ol></nav>`,
  );
}

const TYPES: Readonly<Record<string, string>> = {
  xhtml: 'application/xhtml+xml',
  css: 'text/css',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  png: 'image/png',
  gif: 'image/gif',
  json: 'application/json',
  yaml: 'application/yaml',
  mdx: 'text/markdown',
  vtt: 'text/vtt',
  txt: 'text/plain',
};

/** Pictures that every reader of books shows: EPUB 3.2, core media types. */
export function isBookPicture(file: string): boolean {
  return /\.(?:jpe?g|png|gif)$/i.test(file);
}

/**
 * The package document: EPUB 3.2, Packages, 3.
 *
 * @param documents in the order in which they are read
 * @param files paths of everything in the book, from its top
 */
export function packageDocument(
  about: BookAbout,
  documents: readonly BookDocument[],
  files: readonly string[],
): string {
  const { identifier, title, shop, language, made } = about;
  const listed = files
    .filter((path) => path !== 'mimetype' && path !== BOOK_DOCUMENT && !path.startsWith('META-INF/'))
    .toSorted();
  const idOf = new Map(listed.map((path, index) => [path, `file-${index + 1}`]));
  const items = listed.map((path) => {
    const type = TYPES[/\.([a-z0-9]+)$/i.exec(path)?.[1]?.toLowerCase() ?? ''] ?? 'application/octet-stream';
    const nav = path === `${BOOK_FOLDER}/contents.xhtml` ? ' properties="nav"' : '';
    const href = encodePath(path);
    return `    <item id="${idOf.get(path)}" href="${escapeXml(href)}" media-type="${type}"${nav}/>`;
  });
  const spine = ['title.xhtml', 'contents.xhtml', ...documents.map(({ name }) => name)];
  const read = [...new Set(spine)].map((name) => `    <itemref idref="${idOf.get(`${BOOK_FOLDER}/${name}`)}"/>`);
  const pictures = listed.some(isBookPicture);
  return `<?xml version="1.0" encoding="UTF-8"?>
<package xmlns="http://www.idpf.org/2007/opf" version="3.0" unique-identifier="id" xml:lang="${escapeXml(language)}">
  <metadata xmlns:dc="http://purl.org/dc/elements/1.1/">
    <dc:identifier id="id">${escapeXml(identifier)}</dc:identifier>
    <dc:title>${escapeXml(title)}</dc:title>
    <dc:language>${escapeXml(language)}</dc:language>
    <dc:creator>${escapeXml(shop)}</dc:creator>
    <meta property="dcterms:modified">${made}T00:00:00Z</meta>
    <meta property="schema:accessMode">textual</meta>
${pictures ? '    <meta property="schema:accessMode">visual</meta>\n' : ''}    <meta property="schema:accessModeSufficient">textual</meta>
    <meta property="schema:accessibilityFeature">tableOfContents</meta>
    <meta property="schema:accessibilityFeature">readingOrder</meta>
    <meta property="schema:accessibilityHazard">none</meta>
    <meta property="schema:accessibilitySummary">Everything that has to be known stands in the text; pictures show what the text says.</meta>
  </metadata>
  <manifest>
${items.join('\n')}
  </manifest>
  <spine>
${read.join('\n')}
  </spine>
</package>
`;
}
