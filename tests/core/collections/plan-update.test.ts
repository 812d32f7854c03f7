import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { planUpdate, type UpdatePlan } from '../../../src/core/collections/index.ts';

const LESSON = 'lessons/chain.mdx';
const base = new Map(Object.entries(SOUND_SHOP));

/** The sound shop, changed by the shop and by the publisher; each change is a file and what becomes of its text. */
type Change = readonly [file: string, from: string, to: string];
function side(changes: readonly Change[]): ReadonlyMap<string, string> {
  const texts = new Map(base);
  for (const [file, from, to] of changes) {
    const text = texts.get(file) ?? '';
    if (!text.includes(from)) throw new Error(`${file} does not hold "${from}"`);
    texts.set(
      file,
      text.replace(from, () => to),
    );
  }
  return texts;
}

function planned(
  here: readonly Change[],
  there: readonly Change[],
  choices: Readonly<Record<string, 'take' | 'keep'>> = {},
): UpdatePlan {
  const wishes = { from: 'tarn-values 1.1.0', kept: 'collections/tarn-values/1.1.0' };
  const choose = (name: string) => choices[name];
  const texts = { ours: side(here), base, theirs: side(there) };
  const plan = planUpdate(texts, new Map(), { ...wishes, choose });
  if (!plan.ok) throw new Error(plan.problem);
  return plan.value;
}

const textOf = (plan: UpdatePlan, file: string) => plan.texts.find((each) => each.file === file)?.text ?? '';
const openOf = ({ open }: UpdatePlan) =>
  open.map(({ rule, place, message }) => `${place.file}:${place.start.line} ${rule} ${message}`);

const CRACK = 'Crack it on the wheels.';
const WARNING = `${CRACK}\n\n<Warning>Somebody holds the bike.</Warning>\n\n![The nut](nut.jpg)`;

test('a shop’s own warning, picture and step lie over a shared lesson, and what the publisher changes elsewhere comes in', () => {
  const own = '### Look at it once more\n<Cue at="0:07:00" />\n\nTurn the wheel.\n';
  const here: Change[] = [
    [LESSON, CRACK, WARNING],
    [LESSON, 'Tighten to <Spec of="axle-nut" />.\n', `Tighten to <Spec of="axle-nut" />.\n\n${own}`],
  ];
  const plan = planned(here, [[LESSON, 'title: Chain', 'title: Chain and sprockets']]);
  const text = textOf(plan, LESSON);
  expect([text.includes(WARNING), text.includes(own), text.includes('title: Chain and sprockets'), plan.open]).toEqual([
    ...[true, true, true],
    [],
  ]);
});

test('both have changed a step: both texts and both places are told, under its id, and each choice does what it says', () => {
  const here: Change[] = [[LESSON, CRACK, 'Crack it by foot.']];
  const there: Change[] = [[LESSON, CRACK, 'Crack it by hand.']];
  const name = `${LESSON}#crack-the-nut`;
  const { open, texts } = planned(here, there);
  expect([open.length, texts]).toEqual([1, []]);
  expect(openOf(planned(here, there))[0]).toMatch(
    /^lessons\/chain\.mdx:9 shared-text-collides crack-the-nut: here .*by foot.* · there .*by hand/,
  );
  expect(open[0]?.see?.place).toMatchObject({ file: `collections/tarn-values/1.1.0/${LESSON}`, start: { line: 9 } });
  expect(textOf(planned(here, there, { [name]: 'take' }), LESSON)).toContain('by hand');
  expect(planned(here, there, { [name]: 'keep' })).toMatchObject({ open: [], texts: [] });
});

test('a warning or key point that stands here does not go without a word', () => {
  const shared: Change = [LESSON, CRACK, `${CRACK}\n\n<Warning>Somebody holds the bike.</Warning>`];
  const before = side([shared]);
  const wishes = { from: 'x', kept: 'y' };
  const plan = (choice?: 'take' | 'keep') =>
    planUpdate({ ours: before, base: before, theirs: base }, new Map(), { ...wishes, choose: () => choice });
  const open = plan();
  expect(open.ok && openOf(open.value)).toEqual([
    'lessons/chain.mdx:9 shared-text-collides crack-the-nut: here warning: Somebody holds the bike. · there (taken away)',
  ]);
  const taken = plan('take');
  expect(taken.ok && textOf(taken.value, LESSON)).toBe(base.get(LESSON));
  const kept = plan('keep');
  expect(kept.ok && kept.value.texts).toEqual([]);
});

test('tools and words: by id and key; how many a shop has is its own affair', () => {
  const here: Change[] = [['kit.yaml', '    title: Breaker bar\n', '    title: Breaker bar\n    count: 3\n']];
  const there: Change[] = [
    ['kit.yaml', '    title: Breaker bar\n', '    title: Breaker bar, long\n    count: 9\n'],
    ['kit.yaml', '  grinder:', '  saw:\n    title: Saw\n  grinder:'],
  ];
  const { tools } = parse(textOf(planned(here, there), 'kit.yaml'));
  expect([tools['breaker-bar'], tools.saw]).toEqual([{ title: 'Breaker bar, long', count: 3 }, { title: 'Saw' }]);
});

test('one thing of which both changed different sides becomes both; of which both changed one, it is a choice', () => {
  const here: Change[] = [['kit.yaml', 'hazard: throws sparks and splinters', 'hazard: throws sparks']];
  const there: Change[] = [['kit.yaml', 'title: Angle grinder', 'title: Small angle grinder']];
  expect(parse(textOf(planned(here, there), 'kit.yaml')).tools.grinder).toMatchObject({
    ...{ title: 'Small angle grinder', hazard: 'throws sparks' },
  });
  const clash: Change[] = [['kit.yaml', 'hazard: throws sparks and splinters', 'hazard: throws splinters']];
  expect(openOf(planned(here, clash))).toEqual([
    'kit.yaml:9 shared-text-collides grinder: here hazard: throws sparks · there hazard: throws splinters',
  ]);
});

test('who keeps what is here takes all the same what only the publisher has changed', () => {
  const here: Change[] = [['kit.yaml', 'title: Angle grinder', 'title: Our grinder']];
  const there: Change[] = [['kit.yaml', 'title: Angle grinder\n', 'title: Small angle grinder\n    kind: other\n']];
  const { tools } = parse(textOf(planned(here, there, { 'kit.yaml#grinder': 'keep' }), 'kit.yaml'));
  expect(tools.grinder).toMatchObject({ title: 'Our grinder', kind: 'other' });
  // A hazard is not taken along with it.
  const gone: Change[] = [...there, ['kit.yaml', '    hazard: throws sparks and splinters\n', '']];
  expect(planned(here, gone, { 'kit.yaml#grinder': 'keep' }).texts).toEqual([]);
});

const TABLE = 'specs/tarn-420.yaml';

test.each<[string, Change]>([
  ['a number', [TABLE, 'nominal: 98', 'nominal: 99']],
  ['a tolerance', [TABLE, 'plusMinus: 5', 'plusMinus: 6']],
  ['a unit', [TABLE, 'unit: N·m', 'unit: lbf·ft']],
  ['a kind', [TABLE, 'kind: torque', 'kind: angle']],
  ['whether it can hurt', [TABLE, 'nominal: 98', 'critical: true\n    nominal: 98']],
  ['for which years', [TABLE, 'nominal: 98', 'years: 2020-\n    nominal: 98']],
  ['the state of the threads', [TABLE, 'nominal: 98', 'condition: dry\n    nominal: 98']],
  ['that it is withdrawn', [TABLE, 'nominal: 98', 'withdrawn: {on: 2026-11-20, why: x}\n    nominal: 98']],
  ['that a fastener is used once', [TABLE, 'nominal: 98', 'replace: always\n    nominal: 98']],
  ['the scale of a wrench', ['kit.yaml', 'max: 200', 'max: 210']],
  ['what a tool can do to a person', ['kit.yaml', '    hazard: throws sparks and splinters\n', '']],
  ['that a part is used once', ['kit.yaml', '    replace: always\n', '    count: 2\n']],
  ['the years of the machine', [TABLE, 'years: 2019-2025', 'years: 2017-2025']],
])('%s is never taken silently', (_, change) => {
  const plan = planned([], [change]);
  expect([plan.open.map(({ rule }) => rule), plan.texts, plan.values]).toEqual([['shared-value-changed'], [], []]);
});

test('a row that the publisher drops, or adds for other years, is a choice; a new one is taken', () => {
  const dropped: Change[] = [
    [TABLE, (base.get(TABLE) ?? '').slice((base.get(TABLE) ?? '').indexOf('  - id: chain-slack')), ''],
  ];
  expect(openOf(planned([], dropped))).toEqual([
    `${TABLE}:17 shared-value-changed chain-slack: here (as it stands) · there (taken away)`,
  ]);
  expect(parse(textOf(planned([], dropped, { [`${TABLE}#chain-slack`]: 'take' }), TABLE)).specs).toHaveLength(1);
  const row = '  - {id: axle-nut, title: Rear axle nut, kind: torque, years: 2024-, nominal: 9, unit: N·m}\n';
  expect(planned([], [[TABLE, '  - id: chain-slack', `${row}  - id: chain-slack`]]).open).toHaveLength(1);
  const added = row.replace('axle-nut', 'front-axle');
  expect(textOf(planned([], [[TABLE, '  - id: chain-slack', `${added}  - id: chain-slack`]]), TABLE)).toContain(
    'front-axle',
  );
});

test('who compared it: theirs where nobody here has, ours where somebody here has; never a choice', () => {
  const there: Change[] = [[TABLE, 'checkedOn: 2026-10-03', 'checkedOn: 2026-11-03']];
  expect(textOf(planned([], there), TABLE)).toContain('checkedOn: "2026-11-03"');
  const here: Change[] = [[TABLE, 'checkedBy: lead mechanic', 'checkedBy: second mechanic']];
  expect(planned(here, there)).toMatchObject({ open: [], texts: [] });
});

test('what a plan says it takes, and what of it nobody here has compared', () => {
  const critical = side([[TABLE, 'nominal: 98', 'critical: true\n    nominal: 98']]);
  const there = new Map([...critical, [TABLE, (critical.get(TABLE) ?? '').replace('nominal: 98', 'nominal: 105')]]);
  const wishes = { from: 'x', kept: 'y', choose: () => 'take' as const };
  const texts = { ours: critical, base: critical, theirs: there };
  const plan = planUpdate(texts, new Map(), wishes);
  expect(plan.ok && [plan.value.values, plan.value.uncompared, plan.value.open]).toEqual([
    ['tarn-420#axle-nut'],
    [`${TABLE}#axle-nut`],
    [],
  ]);
  const comparison = { by: 'second mechanic', on: '2026-11-25' };
  const compared = planUpdate(texts, new Map(), { ...wishes, comparison });
  expect(compared.ok && [compared.value.values, compared.value.uncompared]).toEqual([['tarn-420#axle-nut'], []]);
});

test('what the shop has taken away stays away until the publisher changes it, and then is a choice', () => {
  const grinder = / {2}grinder:\n(?: {4}.*\n)+/.exec(base.get('kit.yaml') ?? '')?.[0] ?? '';
  const here: Change[] = [['kit.yaml', grinder, '']];
  expect(planned(here, [])).toMatchObject({ open: [], texts: [] });
  const there: Change[] = [['kit.yaml', 'title: Angle grinder', 'title: Small angle grinder']];
  expect(openOf(planned(here, there))).toEqual([
    'kit.yaml:1 shared-text-collides grinder: here (not here) · there title: Small angle grinder, hazard: throws sparks and splinters, signal: warning',
  ]);
  const taken = planned(here, there, { 'kit.yaml#grinder': 'take' });
  expect(parse(textOf(taken, 'kit.yaml')).tools.grinder.title).toBe('Small angle grinder');
  const ours = new Map(base);
  ours.delete(LESSON);
  const wishes = { from: 'x', kept: 'y', choose: () => undefined };
  const plan = planUpdate({ ours, base, theirs: base }, new Map(), wishes);
  expect(plan.ok && plan.value.texts).toEqual([]);
});
