import { Feed } from 'feed';
import { correctionsShown, rowShown } from '../../core/programme/index.ts';
import type { Site } from './open-site.ts';

/**
 * The feed of corrections, the newest first.
 *
 * @param address of the site, such as `https://shop.example/`; feeds want whole addresses
 * @param base path the site is served under
 */
export function correctionsFeed({ shop, now }: Site, address: URL | undefined, base: string): Feed {
  const root = new URL(base.endsWith('/') ? base : `${base}/`, address ?? 'http://localhost/').href;
  const corrections = correctionsShown(shop);
  const latest = corrections[0]?.correction.on;
  const feed = new Feed({
    title: `Corrections of ${shop.info.name}`,
    description: 'Where a recording says or shows a value that no longer holds',
    id: `${root}corrections/`,
    link: `${root}corrections/`,
    language: shop.info.language ?? 'en',
    copyright: '',
    generator: 'Liftside',
    updated: latest ? new Date(`${latest}T00:00:00Z`) : now,
    feedLinks: { atom: `${root}corrections/atom.xml`, rss: `${root}corrections/rss.xml` },
  });
  for (const { id, correction, passage, lesson, rows } of corrections) {
    const values = rows.map(({ row, whose, verdict }) => {
      const shown = rowShown(row, shop.info.units);
      if (!shown) throw new Error(`${row.id} has no value to show`);
      const value = `${shown.primary}${shown.secondary ? ` (${shown.secondary})` : ''}`;
      const critical = row.written.critical ? ', critical' : '';
      return `${whose ? `${whose}: ` : ''}${value}${critical}${verdict ? `, ${verdict}` : ''}`;
    });
    const words = [
      correction.said && `The recording says “${correction.said}”.`,
      correction.shown && `The recording shows “${correction.shown}”.`,
      `${rows[0].row.title}: ${values.join('; ')}.`,
      correction.note,
    ].filter((part) => part);
    feed.addItem({
      title: `${lesson.title}: ${passage.title}`,
      id: `${root}corrections/#${id}`,
      link: `${root}lessons/${lesson.id}/#${passage.id}`,
      description: words.join(' '),
      content: words.join(' '),
      date: new Date(`${correction.on}T00:00:00Z`),
    });
  }
  return feed;
}
