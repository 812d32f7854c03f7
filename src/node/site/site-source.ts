import { loadShop } from '../files/index.ts';
import type { Site, SiteSource } from './open-site.ts';

/**
 * Reads the shop when it is first asked for and keeps it.
 *
 * @param content absolute path
 */
export function siteSourceOf(content: string, now: () => Date): SiteSource {
  let site: Promise<Site> | undefined;
  const read = async (): Promise<Site> => {
    const { shop, diagnostics, texts } = await loadShop(content);
    return { content, shop, diagnostics, texts, now: now() };
  };
  return {
    content,
    open() {
      site ??= read();
      return site;
    },
    forget() {
      site = undefined;
    },
  };
}
