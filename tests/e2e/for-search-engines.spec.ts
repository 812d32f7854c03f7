import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { XMLParser } from 'fast-xml-parser';
import { type DefaultTreeAdapterTypes, parse } from 'parse5';
import { BASE } from '../support/serve-demo.ts';

type Element = DefaultTreeAdapterTypes.Element;

const site = () => process.env.LIFTSIDE_TEST_SITE ?? '';
const elementsOf = (html: string): Element[] => {
  const walk = (node: DefaultTreeAdapterTypes.Node): Element[] => [
    ...('tagName' in node ? [node] : []),
    ...('childNodes' in node ? node.childNodes.flatMap(walk) : []),
  ];
  return walk(parse(html));
};
const attribute = ({ attrs }: Element, name: string) => attrs.find((each) => each.name === name)?.value;

test('the site map leads to pages that are there and name themselves by the same address', () => {
  const { urlset } = new XMLParser().parse(readFileSync(join(site(), 'sitemap.xml'), 'utf8'));
  const addresses: string[] = urlset.url.map(({ loc }: { loc: string }) => loc);
  expect(addresses.length).toBeGreaterThanOrEqual(8);
  const data = new Map<
    string,
    { '@type'?: string; '@graph'?: { '@type': string; hasPart?: object[]; step?: object[] }[] }
  >();
  for (const address of addresses) {
    const { pathname } = new URL(address);
    const elements = elementsOf(readFileSync(join(site(), pathname.slice(BASE.length), 'index.html'), 'utf8'));
    const canonical = elements.find((each) => attribute(each, 'rel') === 'canonical');
    expect(canonical && attribute(canonical, 'href')).toBe(address);
    const shared = elements.find((each) => attribute(each, 'property') === 'og:image');
    if (/^(?:lessons\/.*)?$/.test(pathname.slice(BASE.length))) {
      const picture = new URL((shared && attribute(shared, 'content')) ?? '').pathname.slice(BASE.length);
      // A JPEG file begins so (ITU-T T.81, B.1.1.3: start of image).
      expect(readFileSync(join(site(), picture)).subarray(0, 2).toString('hex')).toBe('ffd8');
    }
    const alternates = elements.filter((each) => attribute(each, 'rel') === 'alternate');
    expect(alternates.flatMap((each) => attribute(each, 'type') ?? [])).toEqual([
      'application/atom+xml',
      'application/rss+xml',
    ]);
    // Each page names itself in every language, and every one of them is in the site map.
    const languages = alternates.filter((each) => attribute(each, 'hreflang'));
    expect(languages.map((each) => attribute(each, 'hreflang'))).toEqual(['en', 'es', 'x-default']);
    expect(addresses).toEqual(expect.arrayContaining(languages.map((each) => attribute(each, 'href'))));
    const island = elements.find((each) => attribute(each, 'type') === 'application/ld+json');
    const text = island?.childNodes.map((node) => ('value' in node ? node.value : '')).join('');
    if (text !== undefined) data.set(pathname.slice(BASE.length), JSON.parse(text));
  }
  // The demo's chain lesson: five chapters, each a clip of the video and a section of the how-to.
  const [video, howTo] = data.get('lessons/chain/')?.['@graph'] ?? [];
  expect([video?.['@type'], howTo?.['@type']]).toEqual(['VideoObject', 'HowTo']);
  expect([video?.hasPart?.length, howTo?.step?.length]).toEqual([5, 5]);
  expect(data.get('classes/chain-saturday/')?.['@type']).toBe('Event');
  expect(readFileSync(join(site(), 'robots.txt'), 'utf8')).toContain(
    `Sitemap: https://millrace.example${BASE}sitemap.xml`,
  );
});

test('the page for addresses that lead nowhere claims no address, and stays out of indexes', () => {
  const elements = elementsOf(readFileSync(join(site(), '404.html'), 'utf8'));
  expect(elements.filter((each) => attribute(each, 'rel') === 'canonical')).toEqual([]);
  expect(elements.filter((each) => attribute(each, 'property') === 'og:url')).toEqual([]);
  const robots = elements.find((each) => attribute(each, 'name') === 'robots');
  expect(robots && attribute(robots, 'content')).toBe('noindex');
});

test('the licences of every script and font of the site go along', () => {
  const text = readFileSync(join(site(), 'licences.txt'), 'utf8');
  for (const name of ['@fontsource-variable/atkinson-hyperlegible-next', 'video.js', 'zod', '@orama/stemmers'])
    expect(text).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+$`, 'm'));
  // The titles of the licences themselves.
  expect(text).toMatch(/SIL Open Font License, Version 1\.1/i);
  expect(text).toContain('Apache License');
  expect(text).toContain('MIT License');
});
