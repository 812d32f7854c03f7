import type { Shop, ShopClass } from '../../core/model/index.ts';
import { openSite, type PageMade, type Site } from './open-site.ts';

/** One page for each class, by its id. */
export async function classPaths(): Promise<{ params: { id: string } }[]> {
  const { shop } = await openSite();
  return shop.classes.map(({ id }) => ({ params: { id } }));
}

/** The class that a page is about, the site it is on, and whether it can be led from there. @throws when there is none of this id */
export async function classOfPage(
  id: string | undefined,
  page?: PageMade,
): Promise<{ site: Site; shop: Shop; shopClass: ShopClass; led: boolean }> {
  const site = await openSite(page);
  const { shop, led = false } = site;
  const shopClass = shop.classes.find((each) => each.id === id);
  if (!shopClass) throw new Error(`there is no class ${id}`);
  return { site, shop, shopClass, led };
}
