import { describe, expect, test } from 'vitest';
import { disagreements } from '../../../src/core/programme/index.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// Values are invented. What is written here is which rows a value in speech is held against, and which it is wrong for.

const row = (written: string) =>
  `  - {${written}, source: {document: manual, page: 1}, checkedBy: lead mechanic, checkedOn: 2026-10-03}\n`;
const AXLE = 'id: axle-nut, title: Axle nut, kind: torque, nominal: 98, plusMinus: 5, unit: N·m';
const CALIPER = 'id: caliper-bolt, title: Caliper bolt, kind: torque, nominal: 25, plusMinus: 3, unit: N·m';
const SLACK = 'id: chain-slack, title: Chain slack, kind: length, min: 30, max: 40, unit: mm';
const EARLY = `${AXLE}, years: 2019-2021`;
const LATE = 'id: axle-nut, title: Axle nut, kind: torque, nominal: 110, plusMinus: 5, unit: N·m, years: 2022-2025';

/** The sound shop's spec file with other rows. */
function specsOf(rows: readonly string[]): string {
  const file = 'specs/tarn-420.yaml';
  const [head = ''] = (changedFile(file, 'specs:\n', 'SPECS')[file] ?? '').split('SPECS');
  return `${head}specs:\n${rows.map(row).join('')}`;
}

interface Told {
  readonly rows?: readonly string[];
  readonly cites?: readonly string[];
  readonly shown?: boolean;
  readonly lessonYears?: string;
}

/** What words disagree with, one line each: id, then for every row how far off, for whom, and until when it was right. */
function against(words: string, told: Told = {}): string[] {
  const { rows = [AXLE, CALIPER, SLACK], cites = ['axle-nut'], shown = false, lessonYears } = told;
  const cited = cites.map((id) => `<Spec of="${id}" />`).join(' and ');
  const { shop } = smallShop({
    'specs/tarn-420.yaml': specsOf(rows),
    ...changedFile('lessons/chain.mdx', 'Tighten to <Spec of="axle-nut" />.', `Tighten. ${cited}`),
    ...(lessonYears && {
      'lessons/chain.mdx': `---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\nyears: ${lessonYears}\n---\n## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:06:10" />\n\n${cited}\n`,
    }),
    ...(shown
      ? changedFile('recordings/chain.yaml', 'people:', `shows:\n  - {at: "0:06:20", text: ${words}}\npeople:`)
      : { 'media/chain.vtt': `WEBVTT\n\n00:06:12.000 --> 00:09:00.000\n${words}\n` }),
  });
  return disagreements(shop).map(({ spec, rows: wrong, critical, how }) => {
    const each = wrong.map(({ difference, whose, heldUntil }) =>
      [difference.off, whose && `for ${whose}`, heldUntil && `until ${heldUntil}`].filter(Boolean).join(' '),
    );
    return `${how === 'shown' ? 'shown ' : ''}${spec} ${each.join('; ')}${critical ? ', critical' : ''}`;
  });
}

describe('which spec a value stands for', () => {
  test.each<[string, readonly string[], readonly string[]]>([
    ['torque it to eighty newton metres', ['axle-nut'], ['axle-nut -13']],
    ['torque it to ninety-three newton metres', ['axle-nut'], []],
    // Named by every word of its id, it goes before what the step cites.
    ['the caliper bolt to eighty newton metres', ['axle-nut'], ['caliper-bolt 52']],
    ['the caliper bolts to eighty newton metres', ['axle-nut'], ['caliper-bolt 52']],
    ['Caliper bolt: eighty newton metres', ['axle-nut'], ['caliper-bolt 52']],
    // Of two that are named the cited one, also where the other fits.
    ['axle nut and caliper bolt, twenty-five newton metres', ['axle-nut'], ['axle-nut -68']],
    ['axle nut and caliper bolt, twenty-five newton metres', [], []],
    // Half named is less than cited, and more than nothing.
    ['the caliper to ninety-eight newton metres', ['axle-nut'], []],
    ['the caliper to twenty newton metres', [], ['caliper-bolt -2']],
    // Nothing named, nothing cited: a torque that fits no row is wrong for the nearest; one that fits any is not.
    ['set it to sixty newton metres', [], ['axle-nut -33']],
    ['set it to thirty newton metres', [], ['caliper-bolt 2']],
    ['set it to twenty-five newton metres', [], []],
    // Lengths are said of anything.
    ['leave fifty millimetres', [], []],
    ['leave fifty millimetres', ['chain-slack'], ['chain-slack 10']],
    ['leave fifty millimetres of slack', [], ['chain-slack 10']],
    // Of two cited ones it fits one, or comes nearest to one.
    ['to twenty-six newton metres', ['axle-nut', 'caliper-bolt'], []],
    ['to sixty newton metres', ['axle-nut', 'caliper-bolt'], ['axle-nut -33']],
    // Another kind says nothing about a torque.
    ['eighty millimetres', ['axle-nut'], []],
  ])('"%s" where the step cites %j', (words, cites, found) => expect(against(words, { cites })).toEqual(found));

  test.each([
    ['The caliper bolt is small. Torque it to eighty newton metres.', 'axle-nut -13'],
    ['The caliper bolt is small? Torque it to eighty newton metres.', 'axle-nut -13'],
    ['The caliper bolt is small! Torque it to eighty newton metres.', 'axle-nut -13'],
    ['Torque it to eighty newton metres. The caliper bolt comes next.', 'axle-nut -13'],
    ['Torque it to eighty newton metres, the caliper bolt. Done.', 'caliper-bolt 52'],
    ['Ready? The caliper bolt, to eighty newton metres. Done.', 'caliper-bolt 52'],
  ])('only the words of its own sentence name it: %s', (words, found) => expect(against(words)).toEqual([found]));

  // 30 to 40 mm: of a range the end that is further outside; of another unit no figure more than the row has.
  test.each([
    ['leave 20 to 30 millimetres', 'chain-slack -10'],
    ['leave 40 to 50 millimetres', 'chain-slack 10'],
    ['leave 10 to 80 millimetres', 'chain-slack 40'],
    ['leave 2.2 inches', 'chain-slack 16'],
    ['leave 1.75 inches', 'chain-slack 4'],
    ['leave 28.25 millimetres', 'chain-slack -1.75'],
  ])('how far off: %s', (words, found) => expect(against(words, { cites: ['chain-slack'] })).toEqual([found]));

  test('they come in the order they are said, whatever passage that is in', () => {
    const said = 'the axle nut to eighty newton metres\n\n00:02:10.000 --> 00:02:20.000\nthe caliper bolt to eighty';
    const { shop } = smallShop({
      'specs/tarn-420.yaml': specsOf([AXLE, CALIPER]),
      'media/chain.vtt': `WEBVTT\n\n00:00:40.000 --> 00:00:50.000\n${said} newton metres\n`,
    });
    expect(disagreements(shop).map(({ spec, passage }) => [spec, passage.title])).toEqual([
      ['axle-nut', 'Crack the nut'],
      ['caliper-bolt', 'Rear wheel'],
    ]);
  });

  test('shown in the picture it counts like said', () =>
    expect(against('80 N·m', { shown: true })).toEqual(['shown axle-nut -13']));
});

describe('rows for several machines', () => {
  const rows = [EARLY, LATE, CALIPER];

  test.each<[string, readonly string[]]>([
    // Right for one, wrong for the other.
    ['ninety-eight newton metres', ['axle-nut -7 for 2022–2025']],
    ['a hundred and ten newton metres', ['axle-nut 7 for 2019–2021']],
    // Both are told: nothing is wrong.
    ['ninety-eight newton metres, a hundred and ten newton metres on the later ones', []],
    // Wrong for both: the nearest first, by its share of the value.
    ['eighty newton metres', ['axle-nut -13 for 2019–2021; -25 for 2022–2025']],
    ['a hundred and forty newton metres', ['axle-nut 25 for 2022–2025; 37 for 2019–2021']],
  ])('"%s"', (words, found) => expect(against(words, { rows })).toEqual(found));

  test('told to all whom one of two cited specs concerns, it is not held against the other', () => {
    const bolt = CALIPER.replace('nominal: 25', 'nominal: 98');
    const both = [...rows.slice(0, 2), `${CALIPER}, years: 2019-2021`, `${bolt}, years: 2022-2025`];
    const cites = ['axle-nut', 'caliper-bolt'];
    expect(against('ninety-eight newton metres, then a hundred and ten newton metres', { rows: both, cites })).toEqual(
      [],
    );
    expect(against('ninety-eight newton metres', { rows: both, cites })).toEqual(['axle-nut -7 for 2022–2025']);
  });

  test('where nothing names or cites them, right for one is right', () =>
    expect(against('ninety-eight newton metres', { rows, cites: [] })).toEqual([]));

  test('a lesson for some years is held against the rows of those', () => {
    const told = (lessonYears: string) => against('ninety-eight newton metres', { rows, lessonYears });
    expect(told('2019-2021')).toEqual([]);
    expect(told('2022-2023')).toEqual(['axle-nut -7 for 2022–2025']);
    expect(told('2021-2022')).toEqual(['axle-nut -7 for 2022–2025']);
    expect(told('2025')).toEqual(['axle-nut -7 for 2022–2025']);
  });

  test('what threads they are is told where rows differ by it', () => {
    const dry = [`${AXLE}, condition: dry`, `${AXLE.replace('98', '80')}, condition: oiled`];
    expect(against('ninety-eight newton metres', { rows: dry })).toEqual(['axle-nut 13 for oiled']);
    const alike = [`${EARLY}, condition: dry`, `${LATE}, condition: dry`];
    expect(against('ninety-eight newton metres', { rows: alike })).toEqual(['axle-nut -7 for 2022–2025']);
  });
});

describe('a value that a bulletin made wrong', () => {
  const formerly = (of: string, value: number, until: string) =>
    `${of}, history: [{until: ${until}, nominal: ${value}, plusMinus: 5, unit: N·m}]`;

  test('is told until when it was right', () => {
    const rows = [formerly(AXLE, 80, '2023-05-01')];
    expect(against('eighty newton metres', { rows })).toEqual(['axle-nut -13 until 2023-05-01']);
    expect(against('seventy newton metres', { rows })).toEqual(['axle-nut -23']);
  });

  test('comes first, also before a nearer row; of two the later', () => {
    const words = 'eighty newton metres';
    expect(against(words, { rows: [EARLY, formerly(LATE, 80, '2023-05-01')] })).toEqual([
      'axle-nut -25 for 2022–2025 until 2023-05-01; -13 for 2019–2021',
    ]);
    expect(against(words, { rows: [formerly(EARLY, 80, '2021-05-01'), formerly(LATE, 80, '2023-05-01')] })).toEqual([
      'axle-nut -25 for 2022–2025 until 2023-05-01; -13 for 2019–2021 until 2021-05-01',
    ]);
  });
});

describe('critical', () => {
  const critical = (of: string) => `${of}, critical: true`;
  test.each<[string, readonly string[], readonly string[], string]>([
    ['eighty newton metres', [critical(AXLE)], ['axle-nut'], 'axle-nut -13, critical'],
    // Which of two cited specs is meant is not known: it is critical where one of them is.
    ['sixty newton metres', [AXLE, critical(CALIPER)], ['axle-nut', 'caliper-bolt'], 'axle-nut -33, critical'],
    ['sixty newton metres', [AXLE, critical(CALIPER)], ['axle-nut'], 'axle-nut -33'],
    // Right for the early ones: only what it is wrong for counts.
    ['ninety-eight newton metres', [critical(EARLY), LATE], ['axle-nut'], 'axle-nut -7 for 2022–2025'],
    ['ninety-eight newton metres', [EARLY, critical(LATE)], ['axle-nut'], 'axle-nut -7 for 2022–2025, critical'],
  ])('"%s" for %j where the step cites %j', (words, rows, cites, found) =>
    expect(against(words, { rows, cites })).toEqual([found]),
  );
});

describe('a value said for years is held against the rows of those years', () => {
  const rows = [EARLY, LATE, SLACK];

  test.each([
    '98 newton metres up to 2021, 110 newton metres from 2022.',
    'From 2022 it is 110 newton metres, and before 2022 it is 98 newton metres.',
    'The 2019 to 2021 ones take 98 newton metres, those after 2021 take 110 newton metres.',
    'Between 2019 and 2021 they took 98 newton metres, 2022 and later 110 newton metres.',
    '98 newton metres and 110 newton metres, the change came in 2022.',
  ])('%s', (words) => {
    expect(against(words, { rows })).toEqual([]);
  });

  test.each([
    '110 newton metres up to 2021, 98 newton metres from 2022.',
    'From 2022 it is 98 newton metres, and before 2022 it is 110 newton metres.',
    'The 2019 to 2021 ones take 110 newton metres, those after 2021 take 98 newton metres.',
    'Between 2019 and 2021 they took 110 newton metres, 2022 and later 98 newton metres.',
  ])('%s', (words) => {
    expect(against(words, { rows }).toSorted()).toEqual(['axle-nut -7 for 2022–2025', 'axle-nut 7 for 2019–2021']);
  });

  test('one of them is enough', () => {
    expect(against('98 newton metres from 2022, 110 newton metres it says here.', { rows })).toEqual([
      'axle-nut -7 for 2022–2025',
    ]);
  });
});
