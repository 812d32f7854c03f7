import { expect, test } from 'vitest';
import { changeOfRows } from '../../../src/core/collections/merge-rows.ts';

const row = (changes: Readonly<Record<string, string | number | boolean>> = {}) => ({
  ...{ id: 'axle-nut', title: 'Rear axle nut', kind: 'torque', nominal: 98, unit: 'N·m' },
  ...{ checkedBy: 'lead mechanic', checkedOn: '2026-10-03', ...changes },
});
const change = (
  base: readonly object[],
  here: readonly object[],
  there: readonly object[],
  comparison?: { by: string; on: string },
) => changeOfRows({ base, here, there } as Parameters<typeof changeOfRows>[0], comparison);
const ROW = row();
const COMPARISON = { by: 'second mechanic', on: '2026-11-25' };

test('a title alone is no value; it is taken where the shop has not changed it, and collides where it has', () => {
  expect(change([ROW], [ROW], [row({ title: 'Nut' })])).toMatchObject({
    ...{ value: false, collides: false, critical: false, taken: [row({ title: 'Nut' })] },
  });
  expect(change([ROW], [row({ title: 'Ours' })], [row({ title: 'Nut' })])).toMatchObject({
    ...{ value: false, collides: true, taken: [{ title: 'Nut' }], kept: [{ title: 'Ours' }] },
  });
});

test('a value that is not critical brings along who compared it there; what is kept keeps all', () => {
  const there = row({ nominal: 105, checkedBy: 'their mechanic', title: 'Nut' });
  expect(change([ROW], [ROW], [there])).toEqual({
    ...{ value: true, collides: false, critical: false, taken: [there], kept: [ROW] },
  });
});

test.each([
  ['in use', true, false, false],
  ['here', false, true, false],
  ['in the new version', false, false, true],
])('critical %s: nobody has compared the new value until somebody here has', (_, base, here, there) => {
  const { critical, taken } = change(
    [row({ critical: base })],
    [row({ critical: here })],
    [row({ critical: there, nominal: 105 })],
  );
  expect([critical, taken.map((one) => Object.keys(one as object).filter((key) => key.startsWith('checked')))]).toEqual(
    [true, [[]]],
  );
  const { taken: compared } = change(
    [row({ critical: base })],
    [row({ critical: here })],
    [row({ critical: there, nominal: 105 })],
    COMPARISON,
  );
  expect(compared).toMatchObject([{ nominal: 105, checkedBy: COMPARISON.by, checkedOn: COMPARISON.on }]);
});

test('what is taken back asks nobody who has compared it', () => {
  const base = row({ critical: true });
  const there = { ...base, withdrawn: { on: '2026-11-20', why: 'the bolt was changed' } };
  expect(change([base], [base], [there]).taken).toEqual([there]);
});

test('rows of one id for several years are compared each with its own, and all together where those differ', () => {
  const [early, late] = [row({ years: '2019-2021' }), row({ years: '2022-', nominal: 105 })];
  const newer = { ...late, nominal: 110 };
  expect(change([early, late], [early, late], [early, newer])).toMatchObject({
    ...{ value: true, collides: false, taken: [early, newer], kept: [early, late] },
  });
  // Another order, and one row more: nothing is laid over a row of other years.
  const more = change([early, late], [early, late], [newer, early]);
  expect(more).toMatchObject({ value: true, collides: false, taken: [newer, early], kept: [early, late] });
  const noted = change([early, late], [{ ...early, note: 'Ours.' }, late], [newer, early]);
  expect(noted.taken).toEqual([newer, early]);
  expect(change([early], [{ ...early, years: '2018-2021' }], [early, late]).collides).toBe(true);
});

test('a critical row that comes for other years has nobody who has compared it, and those that stay keep theirs', () => {
  const [early, late] = [row({ years: '2019-2021', critical: true }), row({ years: '2022-', nominal: 105 })];
  const { taken } = change([early], [early], [early, late], undefined);
  expect(taken[0]).toEqual(early);
  expect(taken[1]).not.toHaveProperty('checkedBy');
});
