import { expect, test } from 'vitest';
import { addressFrom, relativePage, relativeStyles } from '../../../src/core/pack/index.ts';

// The way back by the URL standard itself: what a browser makes of the address, seen from the page.
test.each([
  ['pages/index.html', 'pages/lessons/chain/index.html', 'lessons/chain/index.html'],
  ['pages/lessons/chain/index.html', 'film/chain.mp4', '../../../film/chain.mp4'],
  ['pages/lessons/chain/index.html', 'pages/lessons/brake/index.html', '../brake/index.html'],
  ['pages/a/index.html', 'pages/a/index.html', 'index.html'],
  ['READ ME FIRST.html', 'pages/index.html', 'pages/index.html'],
  ['pages/index.html', 'READ ME FIRST.html', '../READ%20ME%20FIRST.html'],
  ['pages/x/index.html', "source/media/it's 100% (1)#?&.mp4", undefined],
])('from %s to %s', (from, to, address) => {
  const way = addressFrom(from, to);
  if (address !== undefined) expect(way).toBe(address);
  expect(decodeURIComponent(new URL(way, `file:///stick/${encodeURI(from)}`).pathname)).toBe(`/stick/${to}`);
  expect(way).not.toMatch(/["'&<>\s]/);
});

const known = new Map([
  ['', '../index.html'],
  ['steps/', '../steps/index.html'],
  ['footage/media/ä b.mp4', '../../source/media/%C3%A4%20b.mp4'],
  ["media/it's.jpg", 'it%27s.jpg'],
  ['a&b.jpg', 'a%26b.jpg'],
]);
const seen = (html: string) => relativePage(html, (path) => known.get(path));

test('addresses of the site become relative, with query and fragment; all else stays letter by letter', () => {
  expect(seen('<a href="/steps/?q=a&amp;b#x">/steps/</a>')).toBe(
    '<a href="../steps/index.html?q=a&amp;b#x">/steps/</a>',
  );
  expect(seen('<a href="/">Home</a> <a href="/#lessons">')).toBe(
    '<a href="../index.html">Home</a> <a href="../index.html#lessons">',
  );
  expect(seen('<img src="/a&amp;b.jpg">')).toBe('<img src="a%26b.jpg">');
  expect(seen('<img src="/media/it&#39;s.jpg">')).toBe('<img src="it%27s.jpg">');
  const same =
    '<a href="https://x.example/steps/"> <a href="#steps"> <a href="//x/steps/"> <p>href = "/steps/"</p> <a href="/gone/">';
  expect(seen(same)).toBe(same);
});

test('in the data of a page too, whole strings only', () => {
  const page =
    '<script type="application/json">{"url":"/footage/media/%C3%A4%20b.mp4#t=1","title":"see /steps/ \\"/x\\""}</script>';
  expect(seen(page)).toBe(
    '<script type="application/json">{"url":"../../source/media/%C3%A4%20b.mp4#t=1","title":"see /steps/ \\"/x\\""}</script>',
  );
  expect(seen('<script type="application/json">["/a\\u0026b.jpg"]</script>')).toBe(
    '<script type="application/json">["a%26b.jpg"]</script>',
  );
  expect(seen('<script>const a = "/steps/";</script>')).toBe('<script>const a = "/steps/";</script>');
});

test('fonts and pictures of a style sheet', () => {
  const css = 'a{src:url(/_astro/a.woff2) format("woff2"),url("/_astro/b.woff2"),url(data:font/woff2;base64,AA==)}';
  expect(relativeStyles(css, (path) => path.replace('_astro/', ''))).toBe(
    'a{src:url("a.woff2") format("woff2"),url("b.woff2"),url(data:font/woff2;base64,AA==)}',
  );
});
