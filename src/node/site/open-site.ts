import type { LanguageOfPage } from '../../core/locale/index.ts';
import type { SeekSheet } from '../../core/media/index.ts';
import type { Diagnostic, Shop } from '../../core/model/index.ts';
import { inLanguage, type ListPart, lessonsParts, stepsParts } from '../../core/pages/index.ts';
import type { Finished, PlayFile } from '../../core/programme/index.ts';
import type { Counted } from '../../core/search/index.ts';
import type { Range } from '../../core/time/index.ts';
import type { FileSum } from '../files/index.ts';
import { FOOTAGE, stillPath } from './footage-paths.ts';
import type { SiteLocale } from './locales.ts';

/** A finished programme: its files, and its length and that of a frame in ticks. */
export interface RenderedProgramme extends Finished {
  /** Absolute path and ticks of each. */
  readonly parts: readonly { readonly file: string; readonly length: number }[];
  /** Absolute path of a picture of it. */
  readonly poster?: string;
  /** Small pictures of it: the sheet's absolute path, and what is where on it. */
  readonly seek?: { readonly file: string; readonly sheet: SeekSheet };
}

/** A short copy of a stretch of a film, by which a part begins before the index of the film has come. */
export interface SiteOpening {
  /** Absolute path. */
  readonly file: string;
  /** Path below the site's footage. */
  readonly path: string;
  /** What it holds, on the clock of the plan by which the film plays. */
  readonly holds: Range<'recording'>;
}

/** Of a recording that is not rendered: its camera files whole, played by the edit list, or nothing. */
export type Unrendered = 'uncut' | 'none';

/** What the pages are made from. */
export interface Site {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** In the language that its pages are made in; `openSite()` without a page has that of the root. */
  readonly shop: Shop;
  /** The languages of its pages, that of the root first. */
  readonly locales: readonly [SiteLocale, ...SiteLocale[]];
  readonly diagnostics: readonly Diagnostic[];
  /** Every content text, by path relative to the content folder. */
  readonly texts: ReadonlyMap<string, string>;
  /** The sum of each text and caption file that it was read from. */
  readonly sums: ReadonlyMap<string, FileSum>;
  /** Programmes that are rendered from what the content says now, by recording. */
  readonly rendered: ReadonlyMap<string, RenderedProgramme>;
  /** What plays of the others. */
  readonly unrendered: Unrendered;
  /** Pictures of lessons, chapters and steps: absolute path, by path below the site's footage. */
  readonly stills: ReadonlyMap<string, string>;
  /** Short copies of stretches of films, by recording. */
  readonly openings: ReadonlyMap<string, readonly SiteOpening[]>;
  /** Its lists are one page each, however long: it is opened from a folder, where no part of a search can be asked for. */
  readonly whole?: boolean;
  /** Its classes can be led from it: it goes into a package, with the windows of the day. */
  readonly led?: boolean;
  /** When the pages are made; decides which class is the next. */
  readonly now: Date;
  /** When the content is checked, where the pages are made as on another day. */
  readonly checked?: Date;
}

/** What steps of lessons add to the search. */
export interface CountsKept {
  /** As it was counted before, or is now. */
  of(language: string, lesson: string, count: () => Counted): Counted;
}

/** Where the pages get their shop; `forget` makes the next asking read again. */
export interface SiteSource {
  readonly content: string;
  /** What was counted for the search of a site before; left out, all is counted. */
  readonly counts?: CountsKept;
  open(): Promise<Site>;
  forget(): void;
}

/**
 * Astro runs its pages from a bundle of their own, apart from the modules that its configuration has loaded.
 * The process is what both share, so the one loaded shop hangs there.
 */
const KEY = Symbol.for('liftside.site');
const shared = globalThis as { [KEY]?: SiteSource };

export function provideSite(source: SiteSource): void {
  shared[KEY] = source;
}

/** @throws when called outside a build or the local site */
export function siteSource(): SiteSource {
  const source = shared[KEY];
  if (!source) throw new Error('the shop is known only to pages that the site integration builds');
  return source;
}

/** Address of a picture of a lesson, or of a chapter or step of it, where there is one: `href` of its path on the site. */
export function stillOf({ stills }: Site, href: (path: string) => string) {
  return (lesson: string, part?: string): string | undefined => {
    const path = stillPath(lesson, part);
    return stills.has(path) ? href(encodeURI(`${FOOTAGE}/${path}`)) : undefined;
  };
}

/** The openings of a recording's film as a page plays them: `href` of their paths on the site. */
export function openingsOf({ openings }: Site, recording: string, href: (path: string) => string): PlayFile[] {
  return (openings.get(recording) ?? []).map(({ path, holds }) => ({
    url: href(encodeURI(`${FOOTAGE}/${path}`)),
    recording: holds,
  }));
}

/** What plays of a recording. */
export function filmOf({ rendered, unrendered }: Site, recording: string): RenderedProgramme | Unrendered {
  return rendered.get(recording) ?? unrendered;
}

/** The page that is being made: its address says in which language. */
export interface PageMade {
  readonly url: URL;
}

/**
 * The shop as it stands, read once per build and again after each change of the content.
 *
 * @param page is made in the language that its address names; left out, the site as at its root
 */
export async function openSite(page?: PageMade): Promise<Site> {
  const site = await siteSource().open();
  if (!page) return site;
  const { locale } = languageOf(site, page);
  return locale === site.locales[0] ? site : siteIn(site, locale);
}

/** The language that a page is made in. */
export function languageOf({ locales }: Pick<Site, 'locales'>, { url }: PageMade): LanguageOfPage<SiteLocale> {
  const base = import.meta.env.BASE_URL.replace(/\/?$/, '/');
  const path = url.pathname.slice(base.length);
  const locale = localeOfPath({ locales }, path);
  const prefix = locale === locales[0] ? '' : `${locale.tag}/`;
  return { locale, locales, prefix, path: path.slice(prefix.length) };
}

/** The language that a page's path names: below the base, as `es/lessons/chain/`. */
export function localeOfPath({ locales: [root, ...others] }: Pick<Site, 'locales'>, path: string): SiteLocale {
  return others.find(({ tag }) => path.startsWith(`${tag}/`)) ?? root;
}

const translated = new WeakMap<Site, Map<string, Site>>();

/** The site with its shop in another language than that of the root; one for all its pages. */
function siteIn(site: Site, locale: SiteLocale): Site {
  const known = translated.get(site) ?? new Map<string, Site>();
  translated.set(site, known);
  const own = known.get(locale.tag) ?? { ...site, shop: inLanguage(site.shop, locale) };
  known.set(locale.tag, own);
  return own;
}

/** The site as pages of a route show it; for what has to be known before any of them is made. */
export async function siteOfRoute(pattern: string): Promise<Site> {
  const site = await siteSource().open();
  const locale = localeOfPath(site, pattern.slice(1));
  return locale === site.locales[0] ? site : siteIn(site, locale);
}

/** The pages of the step index; none where one page bears it. */
export async function stepsPartsOfSite(): Promise<readonly ListPart[]> {
  const { shop, whole } = await siteSource().open();
  return whole ? [] : stepsParts(shop);
}

/** The pages of lessons that the front page leads to; none where it bears them all. */
export async function lessonsPartsOfSite(): Promise<readonly ListPart[]> {
  const { shop, whole } = await siteSource().open();
  return whole ? [] : lessonsParts(shop);
}
