import { expect, test } from 'vitest';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { lastDayNamed, packageContents } from '../../../src/core/pack/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const { texts, facts } = sampleContent({
  ...SOUND,
  files: {
    ...SOUND.files,
    'lessons/other.mdx': '---\ntitle: Other\nrecording: other\nmachine: other\n---\n## One\n',
    'recordings/other.yaml': 'title: Other\nfiles:\n  - file: media/other.mp4\n',
    'specs/other.yaml': 'machine:\n  title: Other\n  years: 2020-2021\nspecs: []\n',
    'classes/saturday.actual.yaml': 'attendees: 3\n',
  },
});
const { shop } = readShop(texts, facts);
const [shopClass] = shop.classes;

test('a lesson takes along what it leans on, and nothing of other lessons, and nothing about people', () => {
  const contents = packageContents(shop, texts.keys(), 'chain');
  expect(contents).toMatchObject({ ok: true, value: { kind: 'lesson', cameraFiles: ['media/chain.mp4'] } });
  const files = contents.ok ? contents.value.texts : [];
  expect(files).toEqual(['kit.yaml', 'lessons/chain.mdx', 'recordings/chain.yaml', 'shop.yaml', 'specs/tarn-420.yaml']);
});

test('translations travel with their lesson: its words, its captions, and what things are called', () => {
  const translated = sampleContent({
    ...SOUND,
    files: {
      ...SOUND.files,
      'shop.yaml': `${texts.get('shop.yaml')}languages: [en, es]\n`,
      'lessons/chain.es.mdx': texts.get('lessons/chain.mdx') ?? '',
      'words.es.yaml': 'words:\n  - say: tuerca\n    also: [nut]\n',
    },
  });
  const facts = (file: string) =>
    file.endsWith('.vtt') ? { state: 'text' as const, text: 'WEBVTT\n' } : translated.facts(file);
  const { shop } = readShop(translated.texts, facts);
  const contents = packageContents(shop, translated.texts.keys(), 'chain');
  if (!contents.ok) throw new Error(contents.problem);
  expect(contents.value.texts).toEqual(expect.arrayContaining(['lessons/chain.es.mdx', 'words.es.yaml']));
  expect(contents.value.media).toEqual(expect.arrayContaining(['media/chain.vtt', 'media/chain.es.vtt']));
});

test('a class takes along the lessons it shows', () => {
  const contents = packageContents(shop, texts.keys(), shopClass?.id ?? '');
  expect(contents).toMatchObject({ ok: true, value: { kind: 'class' } });
  if (!contents.ok) return;
  expect(contents.value.lessons.map(({ id }) => id)).toEqual(['chain']);
  expect(contents.value.texts).toContain(`classes/${shopClass?.id}.yaml`);
  expect(contents.value.texts.join()).not.toContain('actual');
});

test('what is not there, and what is a draft, is told', () => {
  expect(packageContents(shop, texts.keys(), 'chian')).toMatchObject({
    ok: false,
    help: expect.stringContaining('chain'),
  });
  const draft = { ...shop, lessons: shop.lessons.map((lesson) => ({ ...lesson, draft: true })) };
  expect(packageContents(draft, texts.keys(), 'chain')).toMatchObject({
    ok: false,
    problem: 'the lesson chain is a draft',
  });
});

test('the last day named in the texts, whatever the clock says', () => {
  expect(lastDayNamed(['checkedOn: 2024-03-01', 'date: 2027-01-16', '2099-13-45 12027-02-02'])).toBe('2027-01-16');
  expect(lastDayNamed(['none'])).toBe('2000-01-01');
});
