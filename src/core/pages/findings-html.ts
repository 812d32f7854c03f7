import { count } from '../check/index.ts';
import type { Diagnostic } from '../model/index.ts';
import { plural } from '../read/index.ts';
import { escapeHtml } from './escape.ts';

/** Shown at once; `liftside check` lists them all. */
const MOST = 30;

const STYLE = `<style>
.findings { margin: 0; padding: 0.45rem var(--edge, 1rem); background: var(--wash, #fff3d6); color: var(--ink, #222); border-bottom: 2px solid var(--ink, #222); }
.findings li { margin: 0.6rem 0; }
.findings code { overflow-wrap: anywhere; }
</style>`;

/** What is wrong with the content, to stand at the top of a page of the local site; nothing where all is sound. */
export function findingsHtml(found: readonly Diagnostic[]): string {
  if (found.length === 0) return '';
  const { error } = count(found);
  const words = `${plural(error, 'error')} in the content: the site cannot be built until ${error === 1 ? 'it is' : 'they are'} mended`;
  return `<details class="findings"><summary>${words}</summary>${listHtml(found)}</details>${STYLE}`;
}

/**
 * A page in place of one that cannot be made from the content as it is.
 *
 * @param base path the site is served under
 */
export function findingsPage(found: readonly Diagnostic[], base: string): string {
  const title = 'This page cannot be made yet';
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<link rel="icon" href="data:,">
<style>:root { color-scheme: light dark; } body { margin: 0; font: 1.125rem/1.5 system-ui, sans-serif; } h1, .next { margin: 1rem; }</style>
</head>
<body>
<main>
<h1>${title}</h1>
<p class="next">Mend what stands here and save; the page is then made afresh. <a href="${escapeHtml(base)}">To the first page</a></p>
<div class="findings">${listHtml(found)}</div>
</main>
${STYLE}
<script type="module" src="${escapeHtml(base)}@vite/client"></script>
</body>
</html>
`;
}

function listHtml(found: readonly Diagnostic[]): string {
  const items = found.slice(0, MOST).map(({ place, message, help, rule }) => {
    const where = `${place.file}:${place.start.line}:${place.start.column}`;
    return `<li><code>${escapeHtml(where)}</code> ${escapeHtml(message)}<br>${escapeHtml(help)} <small>${escapeHtml(rule)}</small></li>`;
  });
  const more = found.length > MOST ? `<p>${plural(found.length - MOST, 'more')}: liftside check lists them.</p>` : '';
  return `<ol>${items.join('')}</ol>${more}`;
}
