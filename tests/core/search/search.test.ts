import { resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { inLanguage } from '../../../src/core/pages/index.ts';
import { searchData } from '../../../src/core/search/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { readLocale } from '../../../src/node/site/locales.ts';
import { type SearchOver, searchOver } from '../../support/search-over.ts';
import { queriesOf, unanswered } from '../../support/search-queries.ts';

let search: SearchOver;
let spanish: SearchOver;
beforeAll(async () => {
  const { shop } = await loadShop(resolve(import.meta.dirname, '../../../content'));
  search = searchOver(searchData(shop));
  spanish = searchOver(searchData(inLanguage(shop, await readLocale('es'))));
});

const ids = async (typed: string) => (await search.find(typed)).hits.map(({ id }) => id);
const shown = async (typed: string) =>
  (await search.find(typed)).hits[0]?.excerpt.map(({ text, mark }) => (mark ? `[${text}]` : text)).join('');

test('of what people type, nineteen in twenty find what they want among the first three', async () => {
  const queries = queriesOf('tests/reference/search/queries.txt');
  expect(queries.length).toBeGreaterThanOrEqual(150);
  const missed = await unanswered(search, queries);
  expect(1 - missed.length / queries.length, JSON.stringify(missed, null, 1)).toBeGreaterThanOrEqual(0.95);
  // Where nothing fits, nothing is shown.
  expect(missed.filter(({ wanted }) => wanted.length === 0)).toEqual([]);
});

describe('a value', () => {
  test('is found by any unit of its kind, inside its tolerance, and not outside', async () => {
    // 225 ± 10 kPa is 215 to 235: 31.2 to 34.1 psi (NIST SP 811: 1 psi = 6.894 757 kPa).
    for (const inside of ['215 kPa', '235 kPa', '32 psi', '34 psi', '2.2 bar'])
      expect(await ids(inside), inside).toContain('spec tarn-420/tyre-pressure-front');
    for (const outside of ['214 kPa', '236 kPa', '30 psi', '35 psi'])
      expect(await ids(outside), outside).not.toContain('spec tarn-420/tyre-pressure-front');
  });

  test('that no spec has is told, and no step stands in for it', async () => {
    expect(await search.find('300 Nm')).toEqual({ hits: [], withoutValue: '300 Nm' });
    const { hits, withoutValue } = await search.find('chain slack 75 mm');
    expect(withoutValue).toBe('75 mm');
    expect(hits.map(({ id }) => id)).toContain('spec tarn-420/chain-slack');
  });

  test('limited on one side is found by its limit, not by all that it allows', async () => {
    expect(await ids('322 mm')).toContain('spec tarn-420/chain-twenty-pitches');
    expect(await ids('200 mm')).toEqual([]);
  });

  test('leads to the steps that cite it as well', async () => {
    expect((await ids('98 Nm')).slice(0, 2)).toEqual([
      'spec tarn-420/rear-axle-nut',
      'step chain/tighten-the-axle-nut',
    ]);
  });
});

describe('slips', () => {
  test.each([
    ['sproket', 'sprocket'],
    ['chian slack', 'chain slack'],
    ['blead screw', 'bleed screw'],
  ])('"%s" is read as %s, which is told', async (typed, meant) => {
    expect((await search.find(typed)).meant).toMatch(new RegExp(`^${meant}`));
    expect(await ids(typed)).toEqual(await ids((await search.find(typed)).meant ?? ''));
  });

  test('nothing is told of what was typed rightly, or is another name', async () => {
    for (const right of ['sprocket', 'rotor', 'chain', 'sproc'])
      expect((await search.find(right)).meant, right).toBeUndefined();
  });

  test('a word that is far from all is not bent into one', async () => expect(await ids('rain')).toEqual([]));
});

test('an excerpt is a whole sentence with its value', async () => {
  expect(await shown('feel the lever free play')).toBe('[Free] [play] is 5–12 mm.');
  expect(await shown('change the tool to its flaring pin')).toBe('[Change] the [tool] to its [flaring] [pin].');
});

test('what is chosen is kept to', async () => {
  const { hits } = await search.find('', { hazard: 'danger' });
  expect(hits.map(({ id }) => id)).toEqual(['step front-brake/hold-the-lever']);
  expect((await search.find('chain', { hazard: 'danger' })).hits).toEqual([]);
});

describe('in Spanish', () => {
  test('nineteen in twenty find what they want among the first three', async () => {
    const queries = queriesOf('tests/reference/search/queries.es.txt');
    expect(queries.length).toBeGreaterThanOrEqual(40);
    const missed = await unanswered(spanish, queries);
    expect(1 - missed.length / queries.length, JSON.stringify(missed, null, 1)).toBeGreaterThanOrEqual(0.95);
    expect(missed.filter(({ wanted }) => wanted.length === 0)).toEqual([]);
  });

  const found = async (typed: string) => (await spanish.find(typed)).hits.map(({ id }) => id);

  // Demo (invented): run-out at most 0.2 mm, fluid every 20 000 km. ISO 80000-1:2009, 7.3.2: the comma is a decimal sign.
  test('a comma is a decimal sign, and points between groups of three are none', async () => {
    expect(await found('0,2 mm')).toContain('spec tarn-420/disc-runout');
    expect(await found('20.000 km')).toContain('spec tarn-420/brake-fluid-change');
    expect(await spanish.find('0,25 mm')).toEqual({ hits: [], withoutValue: '0,25 mm' });
    // In English a comma stands between groups of three.
    expect(await ids('20,000 km')).toContain('spec tarn-420/brake-fluid-change');
    expect(await found('20,000 km')).toEqual([]);
  });

  test('a word is found by its other endings, with accents or without', async () => {
    const step = 'step front-brake/clean-the-caliper-and-press-the-pistons-back';
    for (const typed of ['pistones', 'pistón', 'piston', 'limpiando pistón']) {
      expect((await found(typed))[0], typed).toBe(step);
      // As typed, not as a slip that is near enough.
      expect((await spanish.find(typed)).meant, typed).toBeUndefined();
    }
  });

  test('an excerpt has its values with the decimal sign of the language', async () => {
    const [hit] = (await spanish.find('forro por donde sea más fino')).hits;
    expect(hit?.excerpt.map(({ text }) => text).join('')).toMatch(/\b1,5 mm/);
  });
});
