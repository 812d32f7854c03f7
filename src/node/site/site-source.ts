import { readFile } from 'node:fs/promises';
import { readSeekPictures } from '../../core/media/index.ts';
import type { Recording, Shop } from '../../core/model/index.ts';
import { inLanguage, languagesOf } from '../../core/pages/index.ts';
import { type LoadedShop, shopLoader } from '../files/index.ts';
import { findRendered, type RenderedFiles } from '../media/rendered.ts';
import { readLocale } from './locales.ts';
import type { RenderedProgramme, Site, SiteSource, Unrendered } from './open-site.ts';

export interface SourceWishes {
  /** The day that the pages are made as on; now when left out. */
  readonly madeAs?: Date;
  /** Camera files play, though there may be a rendered programme. */
  readonly cameraFiles?: boolean;
  /** The finished programme of a recording; the one that lies beside the content when left out. */
  readonly programmeOf?: (recording: Recording) => Promise<RenderedFiles | undefined>;
  /** Its lists are one page each, however long. */
  readonly whole?: boolean;
  /** Its classes can be led from it. */
  readonly led?: boolean;
  /** Takes pictures of lessons, chapters and steps; left out, there are none. */
  readonly takeStills?: (site: Site) => Promise<Site['stills']>;
  /** Makes the openings of films; left out, there are none. */
  readonly makeOpenings?: (site: Site) => Promise<Site['openings']>;
}

/**
 * Reads the shop when it is first asked for and keeps it.
 *
 * @param content absolute path
 * @param unrendered what plays of a recording that is not rendered
 * @param load reads the folder
 */
export function siteSourceOf(
  content: string,
  now: () => Date,
  unrendered: Unrendered = 'uncut',
  load: () => Promise<LoadedShop> = shopLoader(content),
  {
    madeAs,
    cameraFiles = false,
    programmeOf = (recording) => findRendered(content, recording),
    led = false,
    whole = false,
    takeStills,
    makeOpenings,
  }: SourceWishes = {},
): SiteSource {
  let site: Promise<Site> | undefined;
  const read = async (): Promise<Site> => {
    const loaded = await load();
    const { diagnostics, texts, sums } = loaded;
    const [root, ...others] = languagesOf(loaded.shop.info);
    const locales = [await readLocale(root), ...(await Promise.all(others.map((tag) => readLocale(tag))))] as const;
    const shop = inLanguage(loaded.shop, locales[0]);
    const rendered = cameraFiles ? new Map() : await findAllRendered(shop, programmeOf, takeStills !== undefined);
    const when = madeAs === undefined ? { now: now() } : { now: madeAs, checked: now() };
    const made = { content, shop, locales, diagnostics, texts, sums, rendered, unrendered };
    const site: Site = { ...made, stills: new Map(), openings: new Map(), led, whole, ...when };
    return {
      ...site,
      ...(takeStills && { stills: await takeStills(site) }),
      ...(makeOpenings && { openings: await makeOpenings(site) }),
    };
  };
  return {
    content,
    open() {
      if (site) return site;
      const reading = read();
      site = reading;
      // What failed is tried again by whoever asks next.
      reading.catch(() => {
        if (site === reading) site = undefined;
      });
      return reading;
    },
    forget() {
      site = undefined;
    },
  };
}

/** What is rendered and still is what the content says; the rest is played uncut with its edit list, or not at all. */
async function findAllRendered(
  { recordings }: Shop,
  programmeOf: NonNullable<SourceWishes['programmeOf']>,
  pictures: boolean,
): Promise<ReadonlyMap<string, RenderedProgramme>> {
  const found = new Map<string, RenderedProgramme>();
  for (const recording of recordings) {
    const rendered = await programmeOf(recording);
    if (!rendered) continue;
    const seekPictures = pictures ? rendered.seekPictures : undefined;
    const sheet = seekPictures && readSeekPictures(await readFile(seekPictures.text, 'utf8').catch(() => ''));
    found.set(recording.id, {
      parts: rendered.parts,
      ...(rendered.poster !== undefined && { poster: rendered.poster }),
      ...(seekPictures && sheet && { seek: { file: seekPictures.sheet, sheet } }),
      length: rendered.manifest.length,
      frame: rendered.manifest.frame,
    });
  }
  return found;
}
