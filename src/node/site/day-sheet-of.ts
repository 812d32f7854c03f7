import { type DaySheet, makeDaySheet } from '../../core/day/index.ts';
import { zonedTime } from '../../core/interchange/index.ts';
import { classFit } from './class-fit.ts';
import { filmOf, openSite } from './open-site.ts';

/**
 * The sheet of a class, from the shop as the local site shows it.
 *
 * @param base path the site is served under
 * @returns nothing where there is no such class
 */
export async function daySheetOf(id: string, base: string): Promise<DaySheet | undefined> {
  const site = await openSite();
  const { shop } = site;
  const shopClass = shop.classes.find((each) => each.id === id);
  if (!shopClass) return undefined;
  const fit = await classFit(shop, shopClass);
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const start = zonedTime(shopClass.date, shopClass.starts, shop.info.timezone ?? own);
  const startsAt = start.ok ? start.value.at.getTime() : 0;
  return makeDaySheet(
    shop,
    fit,
    (recording) => filmOf(site, recording),
    (path) => `${base}${path}`,
    startsAt,
  );
}
