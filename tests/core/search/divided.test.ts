import { resolve } from 'node:path';
import MiniSearch from 'minisearch';
import { beforeAll, describe, expect, test } from 'vitest';
import { inLanguage } from '../../../src/core/pages/index.ts';
import {
  dividedSource,
  divideIndex,
  indexOf,
  Search,
  type SearchData,
  searchData,
  wholeSource,
} from '../../../src/core/search/index.ts';
import { SearchWords } from '../../../src/core/search/search-words.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { readLocale } from '../../../src/node/site/locales.ts';
import { searchOver } from '../../support/search-over.ts';
import { queriesOf } from '../../support/search-queries.ts';

/** The demo so many times over: enough for words, places and choices to fill several parts each. */
const COPIES = 30;
/** The sentences found are compared of so many hits. */
const EXCERPTS = 3;

let many: SearchData;
let spanish: SearchData;
beforeAll(async () => {
  const { shop } = await loadShop(resolve(import.meta.dirname, '../../../content'));
  many = manifold(searchData(shop));
  spanish = manifold(searchData(inLanguage(shop, await readLocale('es'))));
});

/** Copies that differ: titles by number, values in every third, a machine to every fifth. */
function manifold(data: SearchData): SearchData {
  const copies = Array.from({ length: COPIES }, (_, copy) =>
    data.records.map((record) => ({
      ...record,
      id: record.id.replace('/', `-${copy}/`),
      title: copy % 7 === 0 ? `${record.title} ${copy}` : record.title,
      text: copy % 2 === 0 ? record.text : record.text.split('. ').slice(1).join('. '),
      values: copy % 3 === 0 ? record.values : [],
      filters: { ...record.filters, machine: [`Tarn ${420 + (copy % 5)}`] },
    })),
  ).flat();
  const isStep = ({ id }: { id: string }) => id.startsWith('step ');
  return { ...data, records: [...copies.filter(isStep), ...copies.filter((record) => !isStep(record))] };
}

const wholeSearch = (data: SearchData) => searchOver(data, new Search(wholeSource(indexOf(data))), EXCERPTS);

/** As it comes over the network: each part as text, by name. */
function divided(data: SearchData) {
  const { head, parts } = divideIndex(indexOf(data));
  const files = new Map([...parts].map(([name, part]) => [name, JSON.stringify(part)]));
  const read: string[] = [];
  const source = dividedSource(JSON.parse(JSON.stringify(head)), async (name) => {
    read.push(name);
    const text = files.get(name);
    if (text === undefined) throw new Error(`${name} is not there`);
    return JSON.parse(text);
  });
  return { files, read, search: searchOver(data, new Search(source), EXCERPTS) };
}

const typed = [
  ...queriesOf('tests/reference/search/queries.txt').map((query) => query.typed),
  ...['', ' ', 'c', 'ch', 'cha', 'chian slack', 'blead screw', '98 Nm', '300 Nm', 'chain slack 75 mm', '22.1 ft-lb'],
  ...['axle nut 98 Nm and 30 mm', '225 kPa', 'brake fluid dot 4', 'zeppelin', 'rain', 'constructor', '__proto__', '42'],
  ...['change the chian and the sproket', 'pads pads pads', 'wheel nut', 'spindle nut torque', 'ünïcode', '車'],
];

describe('an index in parts', () => {
  test('finds what a whole one finds, in the same order, with the same words to it', async () => {
    expect(typed.length).toBeGreaterThan(170);
    const whole = wholeSearch(many);
    const { search, files } = divided(many);
    expect([...files.keys()].filter((name) => name.startsWith('places-')).length).toBeGreaterThan(3);
    let hits = 0;
    for (const query of typed) {
      const answer = await whole.find(query);
      hits += answer.hits.length;
      expect(await search.find(query), query).toEqual(answer);
    }
    expect(hits).toBeGreaterThan(10_000);
  });

  test('with what is chosen, and in Spanish', async () => {
    const whole = wholeSearch(many);
    const { search } = divided(many);
    for (const filters of [{ machine: 'Tarn 422' }, { hazard: 'warning', machine: 'Tarn 420' }, { tool: 'none such' }])
      for (const query of ['', 'chain', 'chian slack', '98 Nm', 'axle nut 98 Nm'])
        expect(await search.find(query, filters), query).toEqual(await whole.find(query, filters));
    expect((await search.find('chain', { machine: 'Tarn 422' })).hits.length).toBeGreaterThan(0);
    const other = divided(spanish).search;
    const inSpanish = wholeSearch(spanish);
    for (const query of queriesOf('tests/reference/search/queries.es.txt').map((each) => each.typed))
      expect(await other.find(query), query).toEqual(await inSpanish.find(query));
  });

  test('reads of it only what a search needs, once, and again what did not come', async () => {
    const { search, read } = divided(many);
    await search.find('chain slack');
    const first = [...read];
    expect(first.length).toBeLessThan(8);
    // The last word may still be typed on; of the first, which is known, nothing more is read.
    expect(first).toContain('words-73');
    expect(first).not.toContain('words-63');
    await search.find('chain slack');
    expect(read).toEqual(first);
    let refuse = true;
    const { head, parts } = divideIndex(indexOf(many));
    const flaky = new Search(
      dividedSource(head, async (name) => {
        if (refuse) throw new Error('no network');
        return parts.get(name);
      }),
    );
    await expect(flaky.find('chain')).rejects.toThrow('no network');
    refuse = false;
    expect((await flaky.find('chain')).places.length).toBeGreaterThan(0);
  });
});

// The order of results is that of a general-purpose search library, MiniSearch 7.2, given the same words.
test('words are ranked as the reference library ranks them', async () => {
  const words = new SearchWords(many.language, many.synonyms, many.skip);
  const fields = { title: 8, also: 2, context: 2, text: 1 };
  const library = new MiniSearch({
    fields: Object.keys(fields),
    tokenize: (text) => text.split(' '),
    processTerm: (term) => term,
  });
  const terms = (text: string) => words.of(text).map(({ term }) => term);
  library.addAll(
    many.records.map((record) => ({
      id: record.id,
      ...Object.fromEntries(
        Object.keys(fields).map((field) => [field, terms(record[field as keyof typeof fields]).join(' ')]),
      ),
    })),
  );
  const order = new Map(many.records.map(({ id }, place) => [id, place]));
  const search = wholeSearch(many);
  const own = new Set(many.records.filter(({ filters }) => filters.machine?.includes('Tarn 422')).map(({ id }) => id));
  for (const query of [
    'chain',
    'chain slack',
    'brake lever free play',
    'rear axle nut torque',
    'bleed screw cap',
    'sproc',
  ]) {
    const wanted = [...new Set(terms(query))];
    const expected = library
      .search(wanted.join(' '), { boost: fields, combineWith: 'AND', prefix: query === 'sproc' })
      .toSorted((a, b) => b.score - a.score || (order.get(a.id) ?? 0) - (order.get(b.id) ?? 0))
      .map(({ id }) => String(id));
    expect(expected.length, query).toBeGreaterThan(0);
    const found = (await search.find(query)).hits.map(({ id }) => id);
    // Those that somebody may read are in order; of all the others it is known that they were found.
    expect(found.slice(0, 200), query).toEqual(expected.slice(0, 200));
    expect(found.toSorted(), query).toEqual(expected.toSorted());
    const among = (await search.find(query, { machine: 'Tarn 422' })).hits.map(({ id }) => id);
    expect(among.slice(0, 200), query).toEqual(expected.filter((id) => own.has(id)).slice(0, 200));
  }
});
