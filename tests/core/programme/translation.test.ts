import { describe, expect, test } from 'vitest';
import { SOUND_SHOP, sampleContent } from '../../../src/core/check/index.ts';
import type { Lesson, Shop } from '../../../src/core/model/index.ts';
import { inLanguage, languageOfCaptions, languageOfLesson, prefixOf } from '../../../src/core/pages/index.ts';
import { translatedLesson, translationFaults } from '../../../src/core/programme/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const SPANISH = { tag: 'es', messages: {} };
const LESSON = SOUND_SHOP['lessons/chain.mdx'] ?? '';
const WORDS = LESSON.replace('title: Chain', 'title: La cadena')
  .replace('## Rear wheel', '## Rueda trasera')
  .replace('### Crack the nut', '### Afloje la tuerca')
  .replace('Crack it on the wheels.', 'Aflójela sobre las ruedas.');

function shopWith(files: Readonly<Record<string, string>>, languages = '[en, es]') {
  const { texts, facts } = sampleContent({
    files: { 'shop.yaml': `${SOUND_SHOP['shop.yaml']}languages: ${languages}\n`, ...files },
  });
  return readShop(texts, (file) => {
    const text = texts.get(file);
    return text !== undefined && file.endsWith('.vtt') ? { state: 'text', text } : facts(file);
  });
}
const lessonOf = ({ lessons }: Shop): Lesson => {
  const [lesson] = lessons;
  if (!lesson) throw new Error('the sample has a lesson');
  return lesson;
};

test('a lesson is shown in its translation, with the ids of the lesson', () => {
  const { shop, diagnostics } = shopWith({ 'lessons/chain.es.mdx': WORDS });
  expect(diagnostics).toEqual([]);
  expect(shop.lessons).toHaveLength(1);
  const spanish = inLanguage(shop, SPANISH);
  const lesson = lessonOf(spanish);
  expect(lesson.title).toBe('La cadena');
  expect(lesson.chapters[0]?.title).toBe('Rueda trasera');
  const ids = ({ chapters }: Lesson) => chapters.flatMap(({ id, steps }) => [id, ...steps.map((step) => step.id)]);
  expect(ids(lesson)).toEqual(ids(lessonOf(shop)));
  expect(languageOfLesson(spanish, lesson)).toBe('es');
  expect(languageOfLesson(shop, lessonOf(shop))).toBe('en');
  expect([prefixOf(shop), prefixOf(spanish)]).toEqual(['', 'es/']);
});

describe('what a translator may not change', () => {
  const faultsOf = (from: string, to: string) => {
    expect(WORDS).toContain(from);
    const { shop } = shopWith({ 'lessons/chain.es.mdx': WORDS.replace(from, to) });
    const [translation] = shop.translations;
    if (!translation) throw new Error('it was read');
    return { shop, faults: translationFaults(lessonOf(shop), translation.lesson).map(({ message }) => message) };
  };
  test.each([
    ['<Cue at="0:00:30" until="0:02:00" />', '<Cue at="0:00:30" until="0:02:01" />', 'in the cue'],
    ['<Cue at="0:06:10" />', '<Cue at="0:06:11" />', 'in the cue'],
    ['<Spec of="axle-nut" />', '<Spec of="chain-slack" />', 'in the cited specs: chain-slack, not axle-nut'],
    ['<Spec of="axle-nut" />', '<Spec of="axle-nut" measured />', 'axle-nut (measured), not axle-nut'],
    ['<Spec of="axle-nut" />', '98 N·m', 'in the cited specs: none, not axle-nut'],
    ['<Uses part="cotter-pin" />', '<Uses part="cotter-pin" count="2" />', '2 × part cotter-pin'],
    ['Aflójela', '<Warning>Cuidado.</Warning> Aflójela', 'in the signal words: warning, not none'],
    ['machine: tarn-420', 'machine: tarn-421', 'machine: is tarn-421, not tarn-420'],
  ])('%s → %s', (from, to, said) => {
    const { shop, faults } = faultsOf(from, to);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain(said);
    // What differs is not shown.
    expect(lessonOf(inLanguage(shop, SPANISH)).title).toBe('Chain');
  });
  test('a step too few, a chapter too many', () => {
    const step = WORDS.slice(0, WORDS.indexOf('### Tighten'));
    expect(faultsOf(WORDS, step).faults[0]).toContain('has 1 step,');
    expect(faultsOf(WORDS, `${WORDS}\n## Más\n<Cue at="0:07:00" />\n`).faults).toEqual(['it has 2 chapters, not 1']);
  });
  test('nothing differs in a lesson from itself', () => {
    const { shop } = shopWith({ 'lessons/chain.es.mdx': LESSON });
    expect(translationFaults(lessonOf(shop), lessonOf(shop))).toEqual([]);
    expect(translatedLesson(lessonOf(shop), lessonOf(shop))).toEqual(lessonOf(shop));
  });
});

test('captions beside the file of the recording are those of the other language', () => {
  const vtt = 'WEBVTT\n\n00:30.000 --> 00:33.000\nAfloje la tuerca.\n';
  const { shop, diagnostics } = shopWith({ 'media/chain.es.vtt': vtt });
  expect(diagnostics).toEqual([]);
  const [recording] = inLanguage(shop, SPANISH).recordings;
  const [english] = shop.recordings;
  if (!recording || !english) throw new Error('the sample has a recording');
  expect(recording.captions?.cues.map(({ text }) => text)).toEqual(['Afloje la tuerca.']);
  expect([languageOfCaptions(shop, recording), languageOfCaptions(shop, english)]).toEqual(['es', 'en']);
});

test('what people call things in the other language is added to its pages, and to them alone', () => {
  const words = 'words:\n  - {say: cadena, also: [chain]}\n';
  const { shop, diagnostics } = shopWith({ 'words.es.yaml': words });
  expect(diagnostics).toEqual([]);
  const said = ({ words: { words = [] } }: Shop) => words.map(({ say }) => say);
  expect(said(inLanguage(shop, SPANISH))).toEqual(['cadena', ...said(shop)]);
  expect(said(shop)).not.toContain('cadena');
  expect(said(inLanguage(shop, { tag: 'fr', messages: {} }))).toEqual(said(shop));
  expect(shopWith({ 'words.fr.yaml': words }).diagnostics.map(({ rule, help }) => `${rule}: ${help}`)).toEqual([
    'file-ignored: name fr under languages: in shop.yaml, after the language of words.yaml',
  ]);
});

test('a translation into no language of the shop, or of no lesson, is told', () => {
  const ignored = (file: string, languages?: string) =>
    shopWith({ [file]: LESSON }, languages).diagnostics.map(({ rule, help }) => `${rule}: ${help}`);
  expect(ignored('lessons/chain.es.mdx', '[en]')).toEqual([
    'file-ignored: name es under languages: in shop.yaml, after the language of the lessons without a suffix',
  ]);
  expect(ignored('lessons/brake.es.mdx')).toEqual([
    'file-ignored: it translates lessons/brake.mdx, which is not there',
  ]);
});
