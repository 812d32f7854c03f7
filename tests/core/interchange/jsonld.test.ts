import { describe, expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { lessonJsonLd, writeJsonLd } from '../../../src/core/interchange/jsonld.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// schema.org 30.0: VideoObject, Clip, HowTo, HowToSection, HowToStep, HowToTool, HowToSupply; lengths as ISO 8601.
interface Found {
  readonly [key: string]: unknown;
  readonly step: readonly { readonly position: number; readonly itemListElement: readonly Record<string, unknown>[] }[];
}
const LESSON = SOUND_SHOP['lessons/chain.mdx'] ?? '';
function graph(files: Readonly<Record<string, string>> = {}, media = {}): [Found, Found] {
  const { times, shop } = smallShop(files);
  const [video, howTo] = lessonJsonLd(times, shop, 'https://a.example/lessons/chain/', media)['@graph'] as Found[];
  if (!video || !howTo) throw new Error('a lesson is a film and a how-to');
  return [video, howTo];
}
const lesson = (from: string, to: string) => ({ 'lessons/chain.mdx': LESSON.replace(from, () => to) });
const stepText = (body: string, more = {}) => {
  const text = LESSON.replace(/<Uses tool="torque-wrench"[\s\S]*$/, () => `${body}\n`);
  return graph({ 'lessons/chain.mdx': text, ...more })[1].step[0]?.itemListElement[1]?.text;
};

test('the film has its address, its length and its chapters; what is not known is left out', () => {
  const [video, howTo] = graph();
  expect(video).toEqual({
    ...{ '@type': 'VideoObject', '@id': 'https://a.example/lessons/chain/#video', name: 'Chain' },
    ...{ description: 'Chain: Rear wheel.', url: 'https://a.example/lessons/chain/' },
    // 470 s are kept.
    ...{
      duration: 'PT7M50S',
      accessibilityFeature: ['captions'],
      hasPart: [expect.objectContaining({ endOffset: 470 })],
    },
  });
  expect(howTo).toMatchObject({
    ...{ '@type': 'HowTo', '@id': 'https://a.example/lessons/chain/#how-to', name: 'Chain', totalTime: 'PT7M50S' },
    video: { '@id': 'https://a.example/lessons/chain/#video' },
  });
  expect(howTo).not.toHaveProperty('inLanguage');
});

test('film, picture, language and summary are told where they are known', () => {
  const files = {
    ...lesson('title: Chain\n', 'title: Chain\nsummary: A new chain.\ntakes: "1:30"\n'),
    'shop.yaml': `${SOUND_SHOP['shop.yaml']}language: en\n`,
    ...changedFile('recordings/chain.yaml', 'captions: media/chain.vtt\n', ''),
  };
  const [video, howTo] = graph(files, { film: 'https://a.example/f.mp4', still: 'https://a.example/s.jpg' });
  expect(video).toMatchObject({
    ...{ contentUrl: 'https://a.example/f.mp4', thumbnailUrl: 'https://a.example/s.jpg', inLanguage: 'en' },
    description: 'A new chain.',
  });
  expect(video).not.toHaveProperty('accessibilityFeature');
  // The work itself takes longer than the film.
  expect(howTo).toMatchObject({ description: 'A new chain.', inLanguage: 'en', totalTime: 'PT1H30M0S' });
});

test('steps are counted within their sections, with the moment and the place of each', () => {
  const [, howTo] = graph(lesson('### Tighten the nut', '## Put it back\n<Cue at="0:06:05" />\n\n### Tighten the nut'));
  expect(howTo.step.map(({ position, itemListElement }) => [position, itemListElement.length])).toEqual([
    [1, 1],
    [2, 1],
  ]);
  expect(graph()[1].step[0]?.itemListElement.map(({ position }) => position)).toEqual([1, 2]);
  expect(graph()[1].step[0]?.itemListElement[0]).toEqual({
    ...{ '@type': 'HowToStep', position: 1, name: 'Crack the nut', text: 'Crack it on the wheels.' },
    url: 'https://a.example/lessons/chain/#crack-the-nut',
    video: {
      ...{ '@type': 'Clip', name: 'Crack the nut', startOffset: 20, endOffset: 110 },
      url: 'https://a.example/lessons/chain/#t=20',
    },
  });
});

describe('the text of a step', () => {
  test('is its sentences with the values in their places; its title where it says nothing', () => {
    expect(stepText('Set <Spec of="chain-slack" />, then to <Spec of="axle-nut" />. Done.')).toMatch(
      /^Set 30.40.mm, then to 98 ± 5.N·m\. Done\.$/,
    );
    expect(stepText('')).toBe('Tighten the nut');
  });

  test('is in the units of the shop', () => {
    const us = { 'shop.yaml': `${SOUND_SHOP['shop.yaml']}units: [us, metric]\n` };
    expect(stepText('To <Spec of="axle-nut" />.', us)).toMatch(/^To 72\.3 ± 3\.6.lbf·ft\.$/);
  });

  test('names a value that has none by its title, one that is in no table by its id', () => {
    const none = changedFile(
      'specs/tarn-420.yaml',
      '    nominal: 98\n    plusMinus: 5\n    unit: N·m\n',
      '    missing: not in the manual\n',
    );
    expect(stepText('To <Spec of="axle-nut" />.', none)).toBe('To Rear axle nut.');
    expect(stepText('To <Spec of="no-such" />.')).toBe('To no-such.');
  });
});

test('tools are counted as many as are needed at once, what is used up as often as it is used', () => {
  const [, howTo] = graph(
    lesson(
      '### Tighten the nut',
      `<Uses tool="breaker-bar" count={2} /> <Uses part="cotter-pin" count={2} /> <Uses supply="brake-fluid" /> <Uses protective="gloves" />

### Tighten the nut`,
    ),
  );
  expect(howTo.tool).toEqual([
    { '@type': 'HowToTool', name: 'Breaker bar', requiredQuantity: 2 },
    { '@type': 'HowToTool', name: 'Gloves' },
    { '@type': 'HowToTool', name: 'Torque wrench, large' },
  ]);
  expect(howTo.supply).toEqual([
    { '@type': 'HowToSupply', name: 'Cotter pin', requiredQuantity: 3 },
    { '@type': 'HowToSupply', name: 'Brake fluid' },
  ]);
});

test('as a file it has whole addresses where the shop has a site, and says what else is wanted', () => {
  const write = (site: string) => {
    const { times, shop } = smallShop({ 'shop.yaml': `${SOUND_SHOP['shop.yaml']}${site}` });
    const { text, notes } = writeJsonLd(times, shop);
    return [JSON.parse(text)['@graph'][0].url, notes];
  };
  const wanted = expect.stringContaining('thumbnailUrl and uploadDate');
  expect(write('site: https://millrace.example/garage\n')).toEqual([
    'https://millrace.example/garage/lessons/chain/',
    [wanted],
  ]);
  expect(write('site: https://millrace.example/\n')[0]).toBe('https://millrace.example/lessons/chain/');
  expect(write('')).toEqual([
    '/lessons/chain/',
    ['the shop names no site:, so addresses are relative; search engines want whole ones', wanted],
  ]);
});
