import { expect, test } from 'vitest';
import { axleNut, placesTold, SEQUENCE, told } from '../../support/told.ts';

const RULE = 'thread-unlikely';
const TORQUE = ['kind: torque', 'nominal: 98', 'plusMinus: 5', 'unit: N·m'];
// ISO 261 has M14 with 2, 1.5, 1.25 or 1 mm, and no 1.75; that is the coarse pitch of M12.
const message =
  'warning | axle-nut: no M14×1.75 is listed; ISO 261 has M14 with 2, 1.5, 1.25 or 1 mm | compare the pitch with the source; if the maker cuts a thread of their own, leave it';

test('a fastener of a pitch that is not listed is told at its size, whatever the row says of it', () => {
  const bolt = axleNut('fastener: {size: M14×1.75}', ...TORQUE);
  expect(told(RULE, bolt)).toEqual([message]);
  expect(placesTold(RULE, bolt)).toEqual(['specs/tarn-420.yaml:10:22']);
  expect(told(RULE, axleNut('fastener: {size: M14×1.75}', ...SEQUENCE))).toEqual([message]);
});

test('a row that is a thread is told at its designation', () => {
  const thread = axleNut('kind: thread', 'designation: M14×1.75');
  expect(told(RULE, thread)).toEqual([message]);
  expect(placesTold(RULE, thread)).toEqual(['specs/tarn-420.yaml:11:18']);
  expect(told(RULE, axleNut('kind: thread', 'designation: M14×1.5'))).toEqual([]);
});

test('what is listed, has no thread, or cannot be read as one is not told', () => {
  for (const size of ['M12×1.75', 'M14', 'M14×1.75 left'])
    expect(told(RULE, axleNut(`fastener: {size: ${size}}`, ...TORQUE))).toEqual([]);
  expect(told(RULE, axleNut('kind: viscosity-grade', 'designation: 10W-40'))).toEqual([]);
  expect(told(RULE, axleNut('kind: torque', 'min: 98', 'max: 90', 'unit: N·m'))).toEqual([]);
});
