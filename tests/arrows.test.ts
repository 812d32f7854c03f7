import { expect, test } from 'vitest';
import { arrowsOf, circlesOf, SRC, textsBelow } from './support/imports.ts';

/** Rooms of core in the order of the flow; a room may import only rooms further up. */
const CORE = [
  'locale',
  'time',
  'spec',
  'heard',
  'model',
  'read',
  'write',
  'programme',
  'fit',
  'media',
  'words',
  'check',
  'interchange',
  'search',
  'pages',
  'day',
  'keep',
  'school',
  'book',
  'pack',
  'edit',
  'collections',
];
/** Families a file may import from. Only pages ask for the shop; what they are made of is handed plain values. */
const MAY: Readonly<Record<string, readonly string[]>> = {
  core: ['core'],
  node: ['core', 'node'],
  browser: ['core', 'browser', 'styles'],
  pages: ['core', 'browser', 'layouts', 'components', 'styles', 'node/files', 'node/site'],
  layouts: ['core', 'browser', 'layouts', 'components', 'styles', 'node/site'],
  components: ['core', 'browser', 'components', 'styles'],
};

const files = textsBelow(SRC, /\.(ts|tsx|astro)$/);
const arrows = arrowsOf(files);

const family = (path: string) => path.split('/')[0] ?? '';
const room = (path: string) => path.split('/').slice(0, 2).join('/');

test('the walk sees the sources', () => {
  expect(files.length).toBeGreaterThan(20);
  expect(arrows.length).toBeGreaterThan(20);
});

test('no family imports what it may not', () => {
  const wrong = arrows.filter(({ from, to }) => {
    const may = MAY[family(from)] ?? [];
    return !may.includes(family(to)) && !may.includes(room(to));
  });
  expect(wrong).toEqual([]);
});

test('core imports only rooms further up the list', () => {
  const wrong = arrows.filter(({ from, to }) => {
    if (family(from) !== 'core' || family(to) !== 'core') return false;
    const [here, there] = [from, to].map((path) => CORE.indexOf(path.split('/')[1] ?? ''));
    return here === -1 || there === -1 || (there ?? 0) > (here ?? 0);
  });
  expect(wrong).toEqual([]);
});

test('the folders of core/fit are read in order: what is planned, what is solved, how it may turn out', () => {
  const order = ['plan', 'solve', 'risk'];
  const folder = (path: string) => (path.startsWith('core/fit/') ? order.indexOf(path.split('/')[2] ?? '') : -1);
  expect(new Set(files.map(({ path }) => folder(path))).size).toBe(order.length + 1);
  const wrong = arrows.filter(({ from, to }) => {
    const here = folder(from);
    return here !== -1 && room(to) === 'core/fit' && (folder(to) === -1 || folder(to) > here);
  });
  expect(wrong).toEqual([]);
});

test('a room is entered by its index, from outside it', () => {
  const wrong = arrows.filter(
    ({ from, to }) =>
      family(to) === 'core' &&
      room(from) !== room(to) &&
      !/^core\/[a-z]+\/index\.ts$/.test(to) &&
      // The reader's schemas know units by the table alone; a cycle through the index would be needless.
      !(room(from) === 'core/model' && to === 'core/spec/kinds.ts'),
  );
  expect(wrong).toEqual([]);
});

test('no file imports itself by a way round', () => {
  expect(circlesOf(arrows)).toEqual([]);
  // A circle is seen where there is one.
  const circle = [
    { from: 'a', to: 'b' },
    { from: 'b', to: 'c' },
    { from: 'c', to: 'b' },
  ];
  expect(circlesOf(circle)).toEqual(['b > c > b']);
});

test('only pages ask for the shop: what they are made of is handed plain values', () => {
  const asks = arrows.filter(({ to }) => to === 'node/site/open-site.ts').map(({ from }) => from);
  expect(asks.some((path) => family(path) === 'pages')).toBe(true);
  expect(asks.filter((path) => family(path) !== 'pages' && room(path) !== 'node/site')).toEqual([]);
});

test('nothing imports the commands', () => {
  expect(arrows.filter(({ from, to }) => room(to) === 'node/cli' && room(from) !== 'node/cli')).toEqual([]);
});

test('core has no clock and no dice', () => {
  const wrong = files.filter(
    ({ path, text }) => family(path) === 'core' && /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(/.test(text),
  );
  expect(wrong.map(({ path }) => path)).toEqual([]);
});

test('sources hold no any and no non-null assertion by suppression', () => {
  const wrong = files.filter(({ text }) =>
    /@ts-ignore|@ts-expect-error|@ts-nocheck|biome-ignore lint\/(suspicious\/noExplicitAny|style\/noNonNullAssertion)/.test(
      text,
    ),
  );
  expect(wrong.map(({ path }) => path)).toEqual([]);
});
