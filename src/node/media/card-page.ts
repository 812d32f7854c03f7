import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import type { CardCorner } from '../../core/model/index.ts';
import type { CardValue, PictureCard } from '../../core/programme/index.ts';
import { escapeMarkup as escaped } from '../../core/read/index.ts';

/**
 * The page that draws cards as they lie over a picture of any size, in a corner: inside the twentieth that screens may
 * hide, and at the bottom above the captions. Lengths are in `--u`, a hundredth of the shorter side: letters of 4u are 19 pixels
 * high at 854 × 480 and 43 at 1920 × 1080.
 */
export function cardPage(
  cards: readonly PictureCard[],
  size: { readonly width: number; readonly height: number },
  corner: CardCorner,
): string {
  const unit = Math.min(size.width, size.height) / 100;
  return `<!doctype html><meta charset="utf-8"><style>:root{--u:${unit}px}${STYLE}</style><main class="${corner.replace('-', ' ')}">${cards.map(cardHtml).join('')}</main>`;
}

function cardHtml({ kind, head, day, texts, signals, values, caution }: PictureCard): string {
  return [
    `<section class="${kind}" dir="auto"><h1>${escaped(head)}${day ? ` <small>${escaped(day)}</small>` : ''}</h1>`,
    ...texts.map((text) => `<p dir="auto">${escaped(text)}</p>`),
    ...signals.map(
      ({ word, text }) => `<p dir="auto"><b class="signal ${word}">${word.toUpperCase()}</b> ${escaped(text)}</p>`,
    ),
    ...valueGroups(values).map(
      ([title, rows]) => `<dl><dt dir="auto">${escaped(title)}</dt>${rows.map(valueHtml).join('')}</dl>`,
    ),
    `<p class="caution">${escaped(caution)}</p></section>`,
  ].join('');
}

/** Rows of one title together, as they differ by machine only. */
function valueGroups(values: readonly CardValue[]): [string, CardValue[]][] {
  const groups = new Map<string, CardValue[]>();
  for (const value of values) groups.set(value.title, [...(groups.get(value.title) ?? []), value]);
  return [...groups];
}

function valueHtml({ title, whose, primary, secondary, source, critical, verdict }: CardValue): string {
  if (primary === undefined) throw new Error(`${title} has no value to show`);
  const label = whose ? `${escaped(whose)}: ` : '';
  const apart = verdict === undefined ? '' : ` (${escaped(verdict)})`;
  const mark = critical ? ' <span class="critical">critical</span>' : '';
  const pair = secondary === undefined ? '' : ` <span class="pair">(${escaped(secondary)})</span>`;
  return `<dd>${label}<b class="value">${escaped(primary)}</b>${pair}${mark}${apart}<small>${escaped(source ?? '')}</small></dd>`;
}

/**
 * Makes the cards as small as it takes to keep them to a third of the picture's width, and only where that is not
 * enough wider: a warning that is left out would be worse than one in the way. Run in the page.
 * Gives false where they do not fit even so.
 */
export const FIT = `(() => {
  const main = document.querySelector('main');
  const third = 100 / 3;
  for (const [width, scale] of [[third, 1], [third, 0.9], [third, 0.8], [third, 0.7], [58, 0.7], [90, 0.7]]) {
    main.style.setProperty('--width', width + 'vw');
    main.style.setProperty('--scale', scale);
    // What hangs out at the top of a bottom corner does not count as something to scroll to.
    const hangs = main.firstElementChild.getBoundingClientRect().top < main.getBoundingClientRect().top - 1;
    if (!hangs && main.scrollHeight <= main.clientHeight && main.scrollWidth <= main.clientWidth) return true;
  }
  return false;
})()`;

const STYLE = `
html, body { margin: 0; background: transparent; }
main {
  box-sizing: border-box; position: fixed; inset: 5%; display: flex; flex-direction: column; align-items: start;
  gap: calc(1.5 * var(--u)); font: calc(4 * var(--u) * var(--scale, 1)) / 1.3 var(--face);
}
main.right { align-items: end; }
main.bottom { inset-block-end: 18%; justify-content: end; }
section {
  box-sizing: border-box; flex: none; width: var(--width); padding: 0.5em 0.7em; border-inline-start: 0.4em solid var(--line);
  border-radius: calc(var(--u) / 2); background: var(--sheet); color: var(--ink); overflow-wrap: anywhere;
}
.correction { border-color: var(--blue); }
h1, p, dl, dd { margin: 0; }
p, dl { margin-top: 0.3em; }
h1 { font-size: 1em; font-weight: 750; }
small { color: var(--soft); font-size: 0.75em; font-weight: 450; }
dt { color: var(--soft); }
dd small { display: block; }
.value { font-size: 1.3em; font-weight: 750; }
.pair { font-size: 1.1em; }
.value, .pair { white-space: nowrap; }
.critical { padding: 0 0.3em; border: 0.1em solid currentcolor; font-size: 0.75em; font-weight: 750; }
.signal { display: inline-block; padding: 0 0.4em; background: var(--signal); color: var(--on-signal); font-weight: 750; }
.danger { --signal: var(--danger); --on-signal: var(--on-danger); }
.warning { --signal: var(--warning); --on-signal: var(--on-warning); }
.caution.signal { --signal: var(--caution); --on-signal: var(--on-caution); }
.notice { --signal: var(--notice); --on-signal: var(--on-notice); }
p.caution { color: var(--soft); font-size: 0.75em; }
.safety p.caution { color: var(--ink); font-size: 1em; }
`;

/** Colours and letters of the site as one style sheet: nothing is fetched while a page is drawn. */
export function siteLook(): string {
  const { resolve } = createRequire(import.meta.url);
  const sheet = resolve('@fontsource-variable/atkinson-hyperlegible-next/wght.css');
  const letters = readFileSync(sheet, 'utf8').replaceAll(/url\((\.\/[^)]+)\)/g, (_, path: string) => {
    const bytes = readFileSync(new URL(path, pathToFileURL(sheet)));
    return `url(data:font/woff2;base64,${bytes.toString('base64')})`;
  });
  return letters + readFileSync(new URL('../../styles/tokens.css', import.meta.url), 'utf8');
}
