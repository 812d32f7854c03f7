import { ownName } from '../locale/index.ts';
import { escapeHtml } from '../pages/index.ts';
import { SAFETY_WORDS } from '../programme/index.ts';
import { addressFrom } from './addresses.ts';
import { type PackageManifest, READ_ME_FILE, SUMS_FILE } from './manifest.ts';

/** What the first page of a package tells beyond its manifest. */
export interface ReadMe {
  readonly manifest: PackageManifest;
  /** Page that a class is led from. */
  readonly leads?: string;
  /** Title and page of each lesson. */
  readonly lessons: readonly { readonly title: string; readonly page: string }[];
  /** Tags of the further languages that its pages are in. */
  readonly languages: readonly string[];
  /** What can be printed, by title. */
  readonly papers: readonly { readonly title: string; readonly path: string }[];
  /** Style sheets of the pages, by path in the package. */
  readonly styles: readonly string[];
  /** Content Security Policy of the pages. */
  readonly policy: string;
  readonly contact?: string;
  /** Address of the published site. */
  readonly published?: string;
}

/** `READ ME FIRST.html`: what the package is, where to begin, what cannot work without a network, how to know it is whole. */
export function readMePage(readMe: ReadMe): string {
  const { manifest, leads, lessons, languages, papers, styles, policy, contact, published } = readMe;
  const { title, shop, language, invented, kind, opens, films } = manifest;
  const link = (path: string, words: string) => `<a href="${addressFrom(READ_ME_FILE, path)}">${escapeHtml(words)}</a>`;
  const list = (entries: readonly string[]) => `<ul>${entries.map((entry) => `<li>${entry}</li>`).join('')}</ul>`;
  const without = films.filter(({ plays }) => plays === 'nothing').map(({ recording }) => recording);
  const divided = films.filter(({ plays, files }) => plays === 'programme' && files.length > 1);
  const from =
    contact === undefined
      ? escapeHtml(shop)
      : `${escapeHtml(shop)}, <a href="mailto:${escapeHtml(contact)}">${escapeHtml(contact)}</a>`;
  return `<!doctype html>
<html lang="${escapeHtml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="content-security-policy" content="${escapeHtml(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)} · ${escapeHtml(shop)}</title>
${styles.map((path) => `<link rel="stylesheet" href="${addressFrom(READ_ME_FILE, path)}">`).join('\n')}
</head>
<body>
<header class="head"><span class="plate">${escapeHtml(shop)}</span></header>
${invented ? '<aside class="invented" aria-label="About this shop"><strong>Invented values.</strong> This shop, its machine and its figures do not exist. Do not work from these values.</aside>' : ''}
<main id="content">
<h1>${escapeHtml(title)}</h1>
<p class="lead">A ${kind} to keep: it works without a network, on this computer or from a stick.</p>
<p><a class="key main" href="${addressFrom(READ_ME_FILE, opens)}">Open the ${kind}</a></p>
<div class="safety-words" role="note" aria-label="Before you start"><p>${escapeHtml(SAFETY_WORDS.join(' '))}</p></div>
<h2>What is in it</h2>
${list([
  ...(leads === undefined
    ? []
    : [`${link(leads, 'Lead this class')}: the run sheet on its day, with the film in a window for the room`]),
  ...(kind === 'class' ? lessons.map((lesson) => `Lesson: ${link(lesson.page, lesson.title)}`) : []),
  ...languages.map((tag) => {
    const page = addressFrom(READ_ME_FILE, opens.replace('pages/', `pages/${tag}/`));
    return `<a href="${page}" lang="${escapeHtml(tag)}" hreflang="${escapeHtml(tag)}">${escapeHtml(ownName(tag))}</a>: the same in this language`;
  }),
  link('pages/steps/index.html', 'Every step, to be searched'),
  link('pages/index.html', 'The front page'),
  ...papers.map((paper) => `To print: ${link(paper.path, paper.title)} (PDF)`),
  link(SUMS_FILE, 'All files with their SHA-256 sums'),
  'Captions and chapters of the films as WebVTT files, in <code>film</code>',
  'The texts it was made from, in <code>source</code>: values with their sources, lessons, captions',
  'The licences of the software and fonts in the pages, in <code>licences</code>',
])}
${divided.map((film) => `<p>The film of ${escapeHtml(film.recording)} lies in ${film.files.length} files, in <code>film</code>, since many sticks take no larger ones. The page plays them as one; another player plays them one after the other, by their numbers.</p>`).join('')}
${without.length > 0 ? `<p>The film of ${escapeHtml(without.join(', '))} is not in this package. The text is complete.</p>` : ''}
<h2>What cannot work from a folder</h2>
${list([
  'A link to a moment of the film works on this computer only, as long as the package stays where it is.',
  ...(leads === undefined
    ? []
    : [
        'Leading the class takes this one computer, with a second screen or a projector: a phone as a clicker and a screen on another machine need Liftside itself.',
      ]),
  'A browser in a private window forgets your machine and your place in the film when it is closed.',
  'Values may have been corrected since this package was made. It cannot know: ask the shop, or look at its site.',
  'Unpack the whole package first. A page opened inside a zip file finds neither its film nor its looks.',
])}
<h2 id="not-here">What is not here</h2>
<p>A link that led to this line leads to a page that is not in this package.${published === undefined ? '' : ` The site of the shop: <a href="${escapeHtml(published)}">${escapeHtml(published)}</a>.`} It comes from ${from}.</p>
<h2>Is it whole?</h2>
<p><code>liftside check-pack</code> with the folder or zip file tells which files are damaged, missing or changed. Without Liftside: <code>sha256sum -c ${SUMS_FILE}</code> in the folder.</p>
</main>
</body>
</html>
`;
}
