import type { Shop } from '../../core/model/index.ts';
import { type LoadedShop, loadShop } from '../files/index.ts';
import { findRendered } from '../media/rendered.ts';
import type { RenderedProgramme, Site, SiteSource, Unrendered } from './open-site.ts';

export interface SourceWishes {
  /** The day that the pages are made as on; now when left out. */
  readonly madeAs?: Date;
  /** Camera files play, though there may be a rendered programme. */
  readonly cameraFiles?: boolean;
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
  load: () => Promise<LoadedShop> = () => loadShop(content),
  { madeAs, cameraFiles = false }: SourceWishes = {},
): SiteSource {
  let site: Promise<Site> | undefined;
  const read = async (): Promise<Site> => {
    const { shop, diagnostics, texts } = await load();
    const rendered = cameraFiles ? new Map() : await findAllRendered(content, shop);
    const when = madeAs === undefined ? { now: now() } : { now: madeAs, checked: now() };
    return { content, shop, diagnostics, texts, rendered, unrendered, ...when };
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
async function findAllRendered(content: string, { recordings }: Shop): Promise<ReadonlyMap<string, RenderedProgramme>> {
  const found = new Map<string, RenderedProgramme>();
  for (const recording of recordings) {
    const rendered = await findRendered(content, recording);
    if (rendered)
      found.set(recording.id, {
        file: rendered.programme,
        ...(rendered.poster !== undefined && { poster: rendered.poster }),
        length: rendered.manifest.length,
        frame: rendered.manifest.frame,
      });
  }
  return found;
}
