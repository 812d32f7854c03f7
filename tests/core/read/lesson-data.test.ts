import { expect, test } from 'vitest';
import { lesson, sampleContent } from '../../../src/core/check/index.ts';
import { type Body, MARKDOWN_TAGS, PLAIN_HTML, VOCABULARY } from '../../../src/core/model/index.ts';
import { lessonPage, type TextShown } from '../../../src/core/pages/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

/** A lesson of one step with this text: what is told of it, and the text as the page shows it. */
function read(text: string) {
  const { texts, facts } = sampleContent(
    lesson(`## Wheel\n<Cue at="0:00:20" />\n\n### Lift\n<Cue at="0:00:30" />\n\n${text}`),
  );
  const { shop, diagnostics } = readShop(texts, (file) =>
    file.endsWith('nut.jpg') ? { state: 'picture' } : facts(file),
  );
  const [only] = shop.lessons;
  const page = only && lessonPage(shop, only, 'uncut', (path) => `/shop/${path}`);
  const step = page?.chapters[0]?.steps[0];
  return {
    told: diagnostics.map(({ rule, message }) => `${rule}: ${message}`),
    body: only?.chapters[0]?.steps[0]?.body ?? [],
    shown: step?.text ?? [],
    html: flat(step?.text ?? []),
    notes: flat(page?.notes ?? []),
    opening: flat(page?.opening ?? []),
  };
}

function flat(text: TextShown): string {
  return text.map((part) => (typeof part === 'string' ? part : `«${part.show}»`)).join('');
}

test.each([
  ['import x from "./x.js"', 'code-in-lesson: import is code'],
  ['export const x = 1', 'code-in-lesson: export is code'],
  ['{1 + 1}', 'code-in-lesson: {…} is code'],
  ['words {process.exit()} words', 'code-in-lesson: {…} is code'],
  ['> - {x}', 'code-in-lesson: {…} is code'],
  ['<script>alert(1)</script>', 'code-in-lesson: <script> does not belong in a lesson'],
  ['<style>*</style>', 'code-in-lesson: <style> does not belong in a lesson'],
  ['<kbd onclick="x()">A</kbd>', 'code-in-lesson: onclick holds code'],
  ['<kbd onClick={x}>A</kbd>', 'code-in-lesson: onClick holds code'],
  ['<Warning {...x}>Hot.</Warning>', 'code-in-lesson: <Warning> takes {…}, which is code'],
  ['<Discuss minutes={3}>Who?</Discuss>', 'code-in-lesson: minutes={…} is code'],
  ['<iframe src="https://a.example/"></iframe>', 'element-unknown: <iframe> is not an element of a lesson'],
  ['<img src="x" alt="" />', 'element-unknown: <img> is not an element of a lesson'],
  ['<a href="https://a.example/">x</a>', 'element-unknown: <a> is not an element of a lesson'],
  ['<x.y>A</x.y>', 'element-unknown: <x.y> is not an element of a lesson'],
  ['<>A</>', 'element-unknown: <> is not an element of a lesson'],
  ['<span style="position:fixed">A</span>', 'attribute-wrong: <span> has no attribute "style"'],
  ['<Warning class="a">Hot.</Warning>', 'attribute-wrong: <Warning> has no attribute "class"'],
  ['<abbr title="a" title="b">A</abbr>', 'attribute-wrong: <abbr> has title= twice'],
  ['[so](javascript:alert)', 'address-unsafe: the link leads to javascript:alert, which is no address of a page'],
  [
    '[so](&#106;ava&#10;script:alert)',
    'address-unsafe: the link leads to java script:alert, which is no address of a page',
  ],
  ['[so](data:text/html,x)', 'address-unsafe: the link leads to data:text/html,x, which is no address of a page'],
  ['[so]\n\n[so]: vbscript:x', 'address-unsafe: the link leads to vbscript:x, which is no address of a page'],
  ['![n](https://a.example/n.png)', 'address-unsafe: the picture https://a.example/n.png is not a file of this shop'],
  ['![n](//a.example/n.png)', 'address-unsafe: the picture //a.example/n.png is not a file of this shop'],
  ['![n](data:image/png;base64,x)', 'address-unsafe: the picture data:image/png;base64,x is not a file of this shop'],
  ['![n](../../n.png)', 'address-unsafe: the picture ../../n.png lies outside the content folder'],
  ['![n](%2e%2e/%2e%2e/n.png)', 'address-unsafe: the picture ../../n.png lies outside the content folder'],
  ['![n](nut.svg)', 'address-unsafe: nut.svg is no picture that every browser shows'],
  ['![n][p]\n\n[p]: /etc/nut.png', 'address-unsafe: the picture /etc/nut.png is not a file of this shop'],
  ['![n](other.png)', 'picture-missing: there is no picture lessons/other.png'],
])('%j is refused: %s', (text, told) => {
  expect(read(text).told).toEqual([told]);
});

test('a heading is looked at too', () => {
  expect(read('### Turn {x}\n<Cue at="0:01:00" />').told).toEqual(['code-in-lesson: {…} is code']);
});

test.each([
  ['a *b* **c** ~~d~~ `e`', '<p>a <em>b</em> <strong>c</strong> <del>d</del> <code>e</code></p>'],
  ['1 < 2 & "3"'.replace('<', '&lt;'), '<p>1 &lt; 2 &amp; &quot;3&quot;</p>'],
  ['- a\n- b', '<ul>\n<li>a</li>\n<li>b</li>\n</ul>'],
  ['[a](https://a.example/?b&c)', '<p><a href="https://a.example/?b&amp;c">a</a></p>'],
  ['[a](#wheel) [b](../other/)', '<p><a href="#wheel">a</a> <a href="../other/">b</a></p>'],
  ['![A nut](../media/nut.jpg)', '<p><img alt="A nut" src="/shop/footage/media/nut.jpg" loading="lazy"></p>'],
  ['<kbd lang="de">Strg</kbd> {/* a note */}x', '<p><kbd lang="de">Strg</kbd> x</p>'],
  ['It is <Spec of="axle-nut" />, then.', '<p>It is «values», then.</p>'],
  ['Turn. <Warning>Hot.</Warning> Wait.', '<p>Turn. </p>«signal»<p> Wait.</p>'],
])('%j becomes %s', (text, html) => {
  const page = read(text);
  expect(page.told).toEqual([]);
  expect(page.html.trim()).toBe(html);
});

test('footnotes stand at the end of the lesson', () => {
  const { told, html, notes } = read('Grease it.[^1]\n\n[^1]: Thinly.');
  expect(told).toEqual([]);
  expect(html).toContain('<a href="#user-content-fn-1"');
  expect(notes).toMatch(/^<section data-footnotes="" class="footnotes">.*Thinly\./s);
});

test('what is refused is not shown either, its words are', () => {
  const { html } = read(
    'a <script>b</script> [c](javascript:d) ![e](https://f.example/g.png) <iframe src="h">i</iframe> {j} <kbd onclick="k()">l</kbd>',
  );
  expect(html.trim()).toBe('<p>a  c e i  <kbd>l</kbd></p>');
});

test('whatever a lesson holds, its text is names of the lists alone', () => {
  const tags = new Set([...MARKDOWN_TAGS, ...PLAIN_HTML.map(({ name }) => name)]);
  const elements = new Set<string>(VOCABULARY.map(({ name }) => name));
  const walk = (body: Body): void => {
    for (const node of body) {
      if (typeof node === 'string') continue;
      expect('tag' in node ? tags.has(node.tag) : elements.has(node.element)).toBe(true);
      for (const name of Object.keys(node.attributes)) expect(name).not.toMatch(/^on|^style$/i);
      walk(node.children);
    }
  };
  const { body } = read(
    '#### a\n\n> b\n\n| c |\n| - |\n| d |\n\n- [x] e\n\n```js\nf\n```\n\n***\n\n<details><summary>g</summary>h</details>\n\n<video onplay="x">i</video>\n\n<Uses tool="grinder" /> www.a.example[^1]\n\n[^1]: j',
  );
  expect(JSON.stringify(body).match(/"(tag|element)"/g)?.length).toBeGreaterThan(20);
  walk(body);
});
