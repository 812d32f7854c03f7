import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { filesNamedIn, isContentText, planUnpack } from '../../../src/core/pack/index.ts';

const SPECS = 'specs/tarn-420.yaml';
const ours = new Map(Object.entries(SOUND_SHOP));
const none = () => undefined;

function planned(
  changes: Readonly<Record<string, string>>,
  choose: (name: string) => 'take' | 'keep' | undefined = none,
) {
  const plan = planUnpack(ours, new Map(Object.entries(changes)), new Map(), choose);
  if (!plan.ok) throw new Error(plan.problem);
  return plan.value;
}

const table = SOUND_SHOP[SPECS] ?? '';
const other = table.replace(/nominal: \d+/, 'nominal: 1234');

test('an empty shop takes every file as it is, letter by letter', () => {
  const plan = planUnpack(new Map(), ours, new Map([['media/chain.mp4', 'new']]), none);
  expect(plan).toMatchObject({ ok: true, value: { copies: ['media/chain.mp4'], undecided: [] } });
  if (plan.ok) expect(new Map(plan.value.texts.map(({ file, text }) => [file, text]))).toEqual(ours);
});

test('the same shop takes nothing', () => {
  const plan = planned(SOUND_SHOP);
  expect([plan.texts, plan.undecided]).toEqual([[], []]);
  expect(plan.compared.every(({ state }) => state === 'same')).toBe(true);
});

test('a value that differs is never taken silently: both sides are told, and nothing is decided', () => {
  const plan = planned({ [SPECS]: other });
  const [differs, ...more] = plan.compared.filter(({ state }) => state === 'differs');
  expect(more).toEqual([]);
  expect(differs).toMatchObject({ here: expect.stringMatching(/^nominal: \d+$/), there: 'nominal: 1234' });
  expect(plan.undecided).toEqual([differs?.name]);
  expect(plan.texts).toEqual([]);
});

test('kept, the shop’s stays; taken, the package’s row takes its place and every other line stays', () => {
  expect(planned({ [SPECS]: other }, () => 'keep')).toMatchObject({ texts: [], undecided: [] });
  const [text] = planned({ [SPECS]: other }, () => 'take').texts;
  expect(parse(text?.text ?? '')).toEqual(parse(other));
  expect(text?.was).toBe(table);
});

test('new rows, documents, tools and words are added; comments and order of what is there stay', () => {
  const extra = `${table.trimEnd()}\n  - {id: brand-new, title: Brand new, kind: torque, nominal: 5, plusMinus: 1, unit: N·m, source: {document: manual}}\n`;
  const commented = new Map([...ours, [SPECS, `# Ours\n${table}`]]);
  const plan = planUnpack(commented, new Map([[SPECS, extra]]), new Map(), none);
  expect(plan.ok && plan.value.compared.filter(({ state }) => state !== 'same')).toEqual([
    { name: `${SPECS}#brand-new`, state: 'new' },
  ]);
  const [text] = plan.ok ? plan.value.texts : [];
  expect(text?.text.startsWith(`# Ours\n${table.trimEnd()}`)).toBe(true);
  expect(parse(text?.text ?? '')).toEqual(parse(extra));
});

test('a further row for an id that is there is a difference, not an addition', () => {
  const [id] = /- id: (\S+)/.exec(table)?.slice(1) ?? [];
  const more = `${table.trimEnd()}\n  - {id: ${id}, title: Again, kind: torque, nominal: 5, plusMinus: 1, unit: N·m, years: 2019-2020, source: {document: manual}}\n`;
  expect(planned({ [SPECS]: more }).undecided).toEqual([`${SPECS}#${id}`]);
});

test('how many of a tool there are is each shop’s own; what it can do is not; neither is the shop itself merged', () => {
  const kit = SOUND_SHOP['kit.yaml'] ?? '';
  const counted = kit.replace('title: Breaker bar', 'title: Breaker bar\n    count: 7');
  expect(planned({ 'kit.yaml': counted })).toMatchObject({ texts: [], undecided: [] });
  expect(planned({ 'kit.yaml': kit.replace('max: 200', 'max: 100') }).undecided).toEqual(['kit.yaml#torque-wrench']);
  expect(planned({ 'shop.yaml': 'name: Another\n' })).toMatchObject({
    ...{ texts: [], undecided: [], compared: [{ name: 'shop.yaml', state: 'own' }] },
  });
});

test('an id may be a word that every object knows', () => {
  const kit = `${SOUND_SHOP['kit.yaml']?.replace('tools:', 'tools:\n  constructor: {title: Form}')}`;
  expect(planned({ 'kit.yaml': kit }).compared).toContainEqual({ name: 'kit.yaml#constructor', state: 'new' });
});

test('a lesson that differs is a difference as a whole; media too', () => {
  expect(planned({ 'lessons/chain.mdx': 'other' }).undecided).toEqual(['lessons/chain.mdx']);
  expect(planned({ 'lessons/chain.mdx': 'other' }, () => 'take').texts).toMatchObject([{ text: 'other' }]);
  const media = planUnpack(ours, new Map(), new Map([['media/a.mp4', 'differs']]), none);
  expect(media).toMatchObject({ value: { undecided: ['media/a.mp4'], copies: [] } });
});

test('a text that is no YAML is refused by name', () => {
  expect(planUnpack(ours, new Map([[SPECS, 'a: [']]), new Map(), none)).toMatchObject({
    problem: `${SPECS} of the package is not sound YAML`,
  });
});

test('only texts of content, and what they name, come out of a package', () => {
  expect(['lessons/a.mdx', 'shop.yaml', 'package.json', 'lessons/a.js', 'x/lessons/a.mdx'].map(isContentText)).toEqual([
    ...[true, true, false, false, false],
  ]);
  expect([...filesNamedIn(ours)]).toEqual(['media/chain.mp4', 'media/chain.vtt']);
  const twoLanguages = new Map([...ours, ['shop.yaml', `${ours.get('shop.yaml')}languages: [en, es]\n`]]);
  expect([...filesNamedIn(twoLanguages)]).toContain('media/chain.es.vtt');
});

test('what things are called in a further language is merged word by word, as in the first', () => {
  const [file, spanish] = ['words.es.yaml', 'words:\n  - say: tuerca # from the bench\n    also: [nut]\n'];
  const theirs = 'words:\n  - say: tuerca\n    also: [nut]\n  - say: cadena\n    also: [chain]\n';
  const plan = planUnpack(new Map([...ours, [file, spanish]]), new Map([[file, theirs]]), new Map(), none);
  if (!plan.ok) throw new Error(plan.problem);
  expect(plan.value.compared.map(({ name, state }) => [name, state])).toEqual([
    [`${file}#tuerca`, 'same'],
    [`${file}#cadena`, 'new'],
  ]);
  expect(plan.value.texts[0]?.text).toContain('from the bench');
});
