import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const LESSON = SOUND_SHOP['lessons/chain.mdx'] ?? '';
const CAPTIONS = SOUND_SHOP['media/chain.vtt'] ?? '';
const WORKING = '00:06:00.000 --> 00:09:00.000\n[working]';

/** What is told of the sound shop's captions in another language, or its lesson in it. */
function told(english: string, translated: string, lesson = LESSON, language = 'es'): string[] {
  const captions = (words: string) => CAPTIONS.replace(WORKING, WORKING.replace('[working]', words));
  expect(captions('x')).not.toBe(CAPTIONS);
  const { texts, facts } = sampleContent({
    files: {
      'shop.yaml': `${SOUND_SHOP['shop.yaml']}languages: [en, ${language}]\n`,
      'media/chain.vtt': captions(english),
      [`media/chain.${language}.vtt`]: captions(translated),
      [`lessons/chain.${language}.mdx`]: lesson,
    },
  });
  const { shop, diagnostics } = readShop(texts, facts);
  return check(shop, diagnostics, { today: SAMPLE_TODAY })
    .filter(({ place }) => place.file.includes(`.${language}.`))
    .map(({ rule, place, message }) => `${rule} ${place.file}:${place.start.line} ${message}`);
}

test.each([
  ['98 newton metres', '98 newton metros'],
  ['ninety-eight newton metres', '98 newton metros'],
  ['98 newton metres', 'noventa y ocho newton metros'],
  ['98 newton metres, plus or minus 5', '98 newton metros, más menos 5'],
  ['[working]', 'Dé una vuelta.'],
])('captions that say %j are rightly translated as %j', (english, spanish) => {
  expect(told(english, spanish)).toEqual([]);
});

test.each([
  ['98 newton metres', '89 newton metros'],
  ['98 newton metres', '9,8 newton metros'],
  ['ninety-eight newton metres', 'ochenta y nueve newton metros'],
])('captions that say %j are not translated by %j', (english, spanish) => {
  expect(told(english, spanish)).toEqual([
    `translation-differs media/chain.es.vtt:${CAPTIONS.slice(0, CAPTIONS.indexOf(WORKING)).split('\n').length} at 0:06:00 "${spanish}" holds a number that media/chain.vtt does not say there`,
  ]);
});

test.each([
  ['Apriete a noventa y ocho newton metros.', '"noventa y ocho newton metros" is a torque written by hand'],
  ['Mida 1,5 milímetros.', '"1,5 milímetros" is a length written by hand'],
  ['Apriete a 98 N·m.', '"98 N·m" is a torque written by hand'],
])('a value by hand in a Spanish lesson: %s', (words, message) => {
  const found = told('98 newton metres', '98 newton metros', `${LESSON.trimEnd()} ${words}\n`);
  expect(found.map((line) => line.replace(/^(\S+) \S+/, '$1'))).toEqual([`quantity-in-prose ${message}`]);
});

// The signs are those of the SI Brochure, 9th edition, which every language writes alike.
test.each([
  ['de', 'auf 98 Nm anziehen'],
  ['de', 'zwischen 30–40 mm, zwei in drei Schritten'],
  ['fr', 'serrer à 98 N·m'],
  ['de', 'achtundneunzig Newtonmeter'],
])('captions in %s are rightly translated by %j', (language, translated) => {
  expect(told('98 newton metres, and 30 to 40 millimetres', translated, LESSON, language)).toEqual([]);
});

test.each([
  ['de', 'auf 89 Nm anziehen', '89 Nm'],
  ['fr', 'serrer à 9,8 N·m', '9,8 N·m'],
  ['fr', 'de 30–45 mm', '30–45 mm'],
])('captions in %s are not translated by %j', (language, translated, measure) => {
  expect(told('98 newton metres, and 30 to 40 millimetres', translated, LESSON, language)).toEqual([
    expect.stringContaining(`"${measure}" holds a number that media/chain.vtt does not say there`),
  ]);
});
