import { XMLParser } from 'fast-xml-parser';
import { expect, test } from 'vitest';
import { siteMap, sitePages } from '../../../src/core/pages/index.ts';
import { smallShop } from '../../support/shop.ts';

test('the site map names every page for strangers, whole and escaped, and no draft', () => {
  const { shop } = smallShop();
  const pages = sitePages({
    ...shop,
    lessons: [...shop.lessons, ...shop.lessons.map((each) => ({ ...each, id: 'raw', draft: true }))],
  });
  expect(pages).toEqual(expect.arrayContaining(['', 'steps/', 'lessons/chain/', 'specs/tarn-420/', 'measure/']));
  expect(pages).not.toContain('lessons/raw/');
  const { urlset } = new XMLParser({ ignoreAttributes: false }).parse(
    siteMap(['https://a.example/x?a=1&b=2', 'https://a.example/']),
  );
  expect(urlset['@_xmlns']).toBe('http://www.sitemaps.org/schemas/sitemap/0.9');
  expect(urlset.url.map(({ loc }: { loc: string }) => loc)).toEqual([
    'https://a.example/x?a=1&b=2',
    'https://a.example/',
  ]);
});
