import { expect, test } from 'vitest';
import { readMePage } from '../../../src/core/pack/read-me.ts';
import { must } from '../../../src/core/time/index.ts';

type ReadMe = Parameters<typeof readMePage>[0];
const MANIFEST: ReadMe['manifest'] = {
  format: 'liftside-package',
  version: 1,
  kind: 'lesson',
  id: 'chain',
  title: 'Chain & "slack"',
  shop: 'Millrace <Garage>',
  language: 'en',
  invented: false,
  opens: 'pages/lessons/chain/index.html',
  lessons: ['chain'],
  films: [],
};
const page = (more: Partial<ReadMe> = {}, manifest: Partial<ReadMe['manifest']> = {}) =>
  readMePage({
    manifest: { ...MANIFEST, ...manifest },
    lessons: [],
    languages: [],
    papers: [],
    styles: [],
    policy: "default-src 'none'",
    ...more,
  });
const items = (html: string, heading: string) =>
  [
    ...(must(html.split(`<h2>${heading}</h2>`)[1], heading)
      .split('</ul>')[0]
      ?.matchAll(/<li>(.*?)<\/li>/g) ?? []),
  ].map(([, item]) => item ?? '');
const film = (plays: 'programme' | 'camera files' | 'nothing', files: string[], recording = 'chain') => ({
  ...{ recording, plays, files },
});

test('what people wrote stands as they wrote it, and is no markup', () => {
  const html = page({ contact: 'a"b@millrace.example', published: 'https://millrace.example/?a=1&b=2' });
  expect(html).toContain('<title>Chain &amp; &quot;slack&quot; · Millrace &lt;Garage&gt;</title>');
  expect(html).toContain('<h1>Chain &amp; &quot;slack&quot;</h1>');
  expect(html).toContain('href="mailto:a&quot;b@millrace.example"');
  expect(html).toContain('The site of the shop: <a href="https://millrace.example/?a=1&amp;b=2">');
  expect(html).not.toContain('<Garage>');
  expect(page()).toMatch(/not in this package\. It comes from Millrace &lt;Garage&gt;\.<\/p>/);
});

test('it opens the page to begin with, in its looks and by its policy', () => {
  const html = page({ styles: ['pages/a.css', 'pages/b.css'] });
  expect(html).toContain('<a class="key main" href="pages/lessons/chain/index.html">Open the lesson</a>');
  expect(html.match(/<link rel="stylesheet" href="pages\/[ab]\.css">/g)).toHaveLength(2);
  expect(html).toContain('content="default-src &#39;none&#39;"');
});

test('invented values are told only of a shop that is', () => {
  expect(page({}, { invented: true })).toContain('Do not work from these values.');
  expect(page()).not.toContain('class="invented"');
});

test('a lesson lists its languages and papers, no lessons of a class and no run sheet', () => {
  const html = page({
    lessons: [{ title: 'Chain', page: 'pages/lessons/chain/index.html' }],
    languages: ['es'],
    papers: [{ title: 'Cards & cues', path: 'papers/cards.pdf' }],
  });
  const inside = items(html, 'What is in it');
  expect(inside[0]).toBe(
    '<a href="pages/es/lessons/chain/index.html" lang="es" hreflang="es">Español</a>: the same in this language',
  );
  expect(inside.filter((item) => /Lesson:|Lead this class/.test(item))).toEqual([]);
  expect(inside).toContain('To print: <a href="papers/cards.pdf">Cards &amp; cues</a> (PDF)');
  expect(inside).toContain('<a href="files.txt">All files with their SHA-256 sums</a>');
  expect(items(html, 'What cannot work from a folder').filter((item) => /Leading the class/.test(item))).toEqual([]);
});

test('a class lists its lessons and, where it is led from here, its run sheet and what that cannot do', () => {
  const lessons = [{ title: 'Chain', page: 'pages/lessons/chain/index.html' }];
  const html = page({ lessons, leads: 'pages/lead/index.html' }, { kind: 'class' });
  const inside = items(html, 'What is in it');
  expect(inside[0]).toMatch(/^<a href="pages\/lead\/index.html">Lead this class<\/a>: the run sheet on its day/);
  expect(inside[1]).toBe('Lesson: <a href="pages/lessons/chain/index.html">Chain</a>');
  expect(items(html, 'What cannot work from a folder').join()).toMatch(/Leading the class takes this one computer/);
  expect(html).toContain('Open the class</a>');
});

test('a film in several files and a film that is not here are told by name', () => {
  const html = page(
    {},
    {
      films: [
        film('programme', ['film/a-1.mp4', 'film/a-2.mp4'], 'a'),
        film('programme', ['film/b.mp4'], 'b'),
        film('camera files', ['film/c-1.mp4', 'film/c-2.mp4'], 'c'),
        film('nothing', [], 'd'),
        film('nothing', [], 'e'),
      ],
    },
  );
  expect([...html.matchAll(/The film of (\S+) lies in (\d+) files/g)].map(([, ...found]) => found)).toEqual([
    ['a', '2'],
  ]);
  expect(html).toContain('The film of d, e is not in this package. The text is complete.');
  expect(page()).not.toMatch(/The film of/);
});
