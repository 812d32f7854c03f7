import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { rolldown } from 'rolldown';
import { type DaySheet, makeDaySheet } from '../../core/day/index.ts';
import { zonedTime } from '../../core/interchange/index.ts';
import { wording } from '../../core/locale/index.ts';
import type { Shop, ShopClass } from '../../core/model/index.ts';
import { CLASSIC_ENDING } from '../../core/pack/index.ts';
import { escapeHtml, type Film, scriptJson } from '../../core/pages/index.ts';
import { filesBelow } from '../files/index.ts';
import { classFit } from '../site/class-fit.ts';
import { messagesElement, readShopLocale } from '../site/locales.ts';
import { packedDayPolicy } from '../site/page-policy.ts';
import type { ShippedPackages } from '../site/shipped-packages.ts';

/** The page of the one who leads a class, on the site. */
export function dayPageOf(shopClass: string): string {
  return `classes/${shopClass}/present/`;
}

export interface DayPages {
  /** Absolute path of the built site that they are put into. */
  readonly site: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly shop: Shop;
  readonly shopClass: ShopClass;
  /** What plays of a recording. */
  readonly filmOf: (recording: string) => Film;
  /** Name of the package. */
  readonly keep: string;
  readonly shipped: ShippedPackages;
}

/** Where the scripts and looks of the two pages lie in the site. */
const DAY = 'day';

/**
 * Puts the two windows of a class day into a built site that goes into a package: the same windows as the local site
 * has, with everything they are run from in them, since nothing can be fetched from a folder.
 *
 * @throws MissingValue where a lesson cites a value that cannot be shown
 */
export async function addDayPages(options: DayPages): Promise<void> {
  const { site, home, shop, shopClass, keep, shipped } = options;
  const { sheet, zoned } = await sheetOf(options);
  const present = join(home, 'src/browser/present');
  const script = async (name: string) => {
    const { code, modules } = await bundled(join(present, name), 'es');
    shipped.see(modules);
    return code;
  };
  const lead = dayPageOf(shopClass.id);
  const room = `${lead}room/`;
  const { title } = shopClass;
  const { tag: language, forDay, messages } = await readShopLocale(shop);
  const { t } = wording({ tag: language, messages });
  const handed = messagesElement(forDay);
  const files = {
    [`${DAY}/day.css`]: await looks(site, present),
    [`${DAY}/advice${CLASSIC_ENDING}`]: await advice(present, shipped),
    [`${DAY}/lead.js`]: await script('open-packed-lead.tsx'),
    [`${DAY}/room.js`]: await script('open-packed-room.tsx'),
    [`${lead}index.html`]: page({
      ...{ language: 'en', handed, title: `${title} · Class day`, script: 'lead', opening: `Opening ${title}.` },
      desk: { class: shopClass.id, keep, room: `/${room}`, sheet, zoned },
    }),
    [`${room}index.html`]: page({
      ...{ language, handed, title: `${title} · ${t('Room')}`, script: 'room', desk: { keep } },
      opening: t('Opening {title}.', { title }),
    }),
  };
  for (const [path, text] of Object.entries(files)) {
    await mkdir(dirname(join(site, path)), { recursive: true });
    await writeFile(join(site, path), text);
  }
}

/** The sheet of the class. Where the shop names no time zone its start is left to where it is opened. */
async function sheetOf({ shop, shopClass, filmOf }: DayPages): Promise<{ sheet: DaySheet; zoned: boolean }> {
  const { timezone } = shop.info;
  const start = timezone === undefined ? undefined : zonedTime(shopClass.date, shopClass.starts, timezone);
  const startsAt = start?.ok ? start.value.at.getTime() : 0;
  const sheet = makeDaySheet(shop, await classFit(shop, shopClass), filmOf, (path) => `/${path}`, startsAt);
  return { sheet: { ...sheet, films: filmsAlone(sheet.films) }, zoned: start?.ok === true };
}

/** Films with what plays: captions and pictures are for the pages of the lessons. */
function filmsAlone(films: DaySheet['films']): DaySheet['films'] {
  return Object.fromEntries(
    Object.entries(films).map(([lesson, { id, length, title, plan, chapters, steps }]) => [
      lesson,
      { id, length, title, plan, chapters, steps },
    ]),
  );
}

interface PageOfDay {
  readonly language: string;
  /** What it hands to its script, as an element. */
  readonly handed: string;
  readonly title: string;
  readonly script: 'lead' | 'room';
  readonly opening: string;
  readonly desk: object;
}

function page({ language, handed, title, script, opening, desk }: PageOfDay): string {
  return `<!doctype html>
<html lang="${escapeHtml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="content-security-policy" content="${escapeHtml(packedDayPolicy())}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/${DAY}/day.css">
</head>
<body>
<div id="day" class="${script}"><p class="opening">${escapeHtml(opening)}</p></div>
${handed}<script type="application/json" id="desk">${scriptJson(desk)}</script>
${script === 'lead' ? `<script defer src="/${DAY}/advice${CLASSIC_ENDING}"></script>\n` : ''}<script type="module" src="/${DAY}/${script}.js"></script>
</body>
</html>
`;
}

/** Tokens and looks as one sheet, with the letters of the site itself. */
async function looks(site: string, present: string): Promise<string> {
  const sheets = filesBelow(site)
    .filter((file) => file.endsWith('.css'))
    .toSorted();
  const own = await Promise.all(sheets.map((file) => readFile(join(site, file), 'utf8')));
  const faces = new Set(own.flatMap((css) => css.match(/@font-face\s*\{[^}]*\}/g) ?? []));
  const texts = await Promise.all(
    ['../../styles/tokens.css', 'present.css'].map((file) => readFile(join(present, file), 'utf8')),
  );
  return [...faces, ...texts].join('\n').replaceAll(/^@import .*$/gm, '');
}

/** What looks for ways out, as a text that the page makes a worker of, and the solver. */
async function advice(present: string, shipped: ShippedPackages): Promise<string> {
  const { code, modules } = await bundled(join(present, 'packed-advice-worker.ts'), 'iife');
  shipped.see(modules);
  const wasm = await readFile(createRequire(import.meta.url).resolve('highs/runtime'));
  return `globalThis.liftsideAdvice = ${JSON.stringify({ worker: code, solver: wasm.toString('base64') })};\n`;
}

async function bundled(input: string, format: 'es' | 'iife') {
  const work = await rolldown({
    input,
    platform: 'browser',
    logLevel: 'silent',
    transform: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  });
  try {
    const { output } = await work.generate({ format, minify: true, codeSplitting: false });
    return { code: output[0].code, modules: output[0].moduleIds };
  } finally {
    await work.close();
  }
}
