import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { type DefaultTreeAdapterTypes, parse } from 'parse5';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { builtPages } from '../support/built-pages.ts';
import { openLesson, pictureIsThere, playing } from '../support/lesson-page.ts';
import { type Forbidden, watchPolicy } from '../support/policy-watch.ts';
import { copyDemo, discard } from '../support/start-room.ts';

type Element = DefaultTreeAdapterTypes.Element;

/** Every element of a page, in order, as the parser of the HTML standard reads it (parse5). */
function elementsOf(html: string): Element[] {
  const walk = (node: DefaultTreeAdapterTypes.Node): Element[] => [
    ...('tagName' in node ? [node] : []),
    ...('childNodes' in node ? node.childNodes.flatMap(walk) : []),
  ];
  return walk(parse(html));
}

const attribute = ({ attrs }: Element, name: string) => attrs.find((each) => each.name === name)?.value;
const textOf = ({ childNodes }: Element) => childNodes.map((node) => ('value' in node ? node.value : '')).join('');
const pageText = (address: string) =>
  readFileSync(join(process.env.LIFTSIDE_TEST_SITE ?? '', address.replace(/(^|\/)$/, '$1index.html')), 'utf8');
const policyOf = (elements: readonly Element[]) =>
  elements.find((each) => attribute(each, 'http-equiv') === 'content-security-policy');

test('every page of the site has a strict policy before anything it could rule, and keeps it to the letter', {
  tag: '@long',
}, () => {
  const pages = builtPages();
  expect(pages.length).toBeGreaterThanOrEqual(13);
  for (const address of pages) {
    const elements = elementsOf(pageText(address));
    const meta = policyOf(elements);
    const head = elements.filter(
      ({ parentNode }) => parentNode && 'tagName' in parentNode && parentNode.tagName === 'head',
    );
    expect([address, meta && head.indexOf(meta)]).toEqual([address, 1]);
    const policy = (meta && attribute(meta, 'content')) ?? '';
    const directives = new Map(policy.split('; ').map((each) => [each.split(' ')[0], each.split(' ').slice(1)]));
    expect(directives.get('default-src')).toEqual(["'none'"]);
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|unsafe-hashes|https?:|\*/);
    for (const element of elements) {
      const { tagName, attrs } = element;
      expect(attrs.filter(({ name }) => name === 'style' || name.startsWith('on'))).toEqual([]);
      expect(attrs.filter(({ value }) => /^\s*javascript:/i.test(value))).toEqual([]);
      // Data is never run (HTML, 4.12.1.1, prepare the script element), so no policy asks after it.
      const data = ['application/json', 'application/ld+json'].includes(attribute(element, 'type') ?? '');
      const inline = attribute(element, 'src') === undefined && !data;
      const list = tagName === 'style' ? 'style-src' : tagName === 'script' && inline ? 'script-src' : undefined;
      const hash = `'sha256-${createHash('sha256').update(textOf(element)).digest('base64')}'`;
      if (list !== undefined) expect(directives.get(list)).toContain(hash);
      // What is loaded with the page comes from the site; links may lead anywhere.
      const loaded = tagName === 'link' ? attribute(element, 'href') : attribute(element, 'src');
      if (loaded !== undefined && attribute(element, 'rel') !== 'canonical' && !attribute(element, 'hreflang'))
        expect(loaded).toMatch(/^(\/(?!\/)|data:)/);
    }
  }
});

/** Puts a script into the page as somebody would who got words of theirs into it. */
async function smuggle(page: Page): Promise<string | undefined> {
  return page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = "document.documentElement.dataset.smuggled = 'ran'";
    document.body.append(script);
    document.body.insertAdjacentHTML(
      'beforeend',
      '<img src="data:," onerror="document.documentElement.dataset.smuggled = 1">',
    );
    return document.documentElement.dataset.smuggled;
  });
}

test('at work no page breaks its policy by itself; what is smuggled in does not run', async ({ page, context }) => {
  const forbidden = await watchPolicy(context);
  // At rest all of them are looked at in pages.spec.ts. Here: the player with captions, keys and chapters; search; a paper on its way to the printer.
  await openLesson(page, 'lessons/chain/');
  await page.locator('.vjs-play-control').click();
  await playing(page, true);
  await page.keyboard.press('c');
  await page.getByRole('button', { name: 'Chapters' }).click();
  await page.getByRole('menuitemradio').nth(1).click();
  await pictureIsThere(page);
  await page.goto('steps/');
  await page.getByRole('searchbox').fill('rivet');
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ found/);
  expect(forbidden).toEqual([]);

  expect(await smuggle(page)).toBeUndefined();
  await expect
    .poll(() => forbidden.map(({ directive }) => directive).toSorted())
    .toEqual(['script-src-attr', 'script-src-elem']);
  expect(await page.evaluate(() => document.documentElement.dataset.smuggled)).toBeUndefined();
  const away = await page.evaluate(() =>
    fetch('https://elsewhere.example/').then(
      () => 'sent',
      () => 'refused',
    ),
  );
  expect([away, forbidden.at(-1)?.directive]).toEqual(['refused', 'connect-src']);
});

const HOSTILE = `</style></title></script><script>document.documentElement.dataset.ran = 1</script><img src=x onerror="document.documentElement.dataset.ran = 2">`;

test('markup in a title is text on every page, in styles and in scripts', { tag: '@long' }, async ({
  page,
  context,
}) => {
  const content = await copyDemo();
  const out = await mkdtemp(join(tmpdir(), 'liftside-hostile-'));
  const retitled = async (file: string, key: string) => {
    const path = join(content, file);
    const text = await readFile(path, 'utf8');
    expect(text).toMatch(new RegExp(`^${key}: .*$`, 'm'));
    // The word before is there for the list of pages, which names each by its title.
    await writeFile(
      path,
      text.replace(new RegExp(`^${key}: .*$`, 'm'), () => `${key}: ${JSON.stringify(`Odd ${HOSTILE}`)}`),
    );
  };
  await retitled('shop.yaml', 'name');
  await retitled('classes/chain-saturday.yaml', 'title');
  await retitled('lessons/chain.mdx', 'title');
  await buildSite({ content, out, home: resolve(import.meta.dirname, '../..'), now: () => new Date() });
  const served = await serveSite({ dir: out });
  try {
    const forbidden: readonly Forbidden[] = await watchPolicy(context);
    for (const address of [
      '',
      'steps/',
      'lessons/chain/',
      'classes/chain-saturday/',
      'classes/chain-saturday/handout/',
      'classes/chain-saturday/run-sheet/',
    ]) {
      await page.goto(served.address + address);
      const elements = elementsOf(await page.content());
      expect([address, elements.filter(({ attrs }) => attrs.some(({ name }) => name === 'onerror')).length]).toEqual([
        address,
        0,
      ]);
      expect(await page.evaluate(() => document.documentElement.dataset.ran)).toBeUndefined();
      await expect(page.locator('.plate')).toContainText('</style></title></script><script>');
    }
    expect(forbidden).toEqual([]);
    // The foot of a printed page names shop and class, from within a style sheet.
    const foot = await page.evaluate(() =>
      [...(document.querySelector('style')?.sheet?.cssRules ?? [])].map(({ cssText }) => cssText).join('\n'),
    );
    expect(foot).toContain('onerror');
  } finally {
    await served.close();
    await rm(out, { recursive: true, force: true });
    await discard(content);
  }
});
