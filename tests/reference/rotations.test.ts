import { expect, test } from 'vitest';
import { rotationsOf } from '../../src/core/fit/plan/stations.ts';
import { published } from '../support/published.ts';
import copied from './rotations.json' with { type: 'json' };

const reference = published(copied);
const turns = (count: number, group: number, visit: 'one' | 'every', people: number) =>
  rotationsOf({ count, group, visit, minutes: 1 }, people);

test('a published Latin square is a whole rotation, in as many turns as are reckoned', () => {
  const source =
    'R. A. Fisher and F. Yates, Statistical Tables for Biological, Agricultural and Medical Research, 6th ed., 1963, table XV';
  for (const square of reference.values[source].squares) {
    const rows = square.map((row) => [...row]);
    const columns = rows.map((_, turn) => rows.map((row) => row[turn]));
    // Each group is at each station once, and no station has two groups in one turn.
    for (const line of [...rows, ...columns]) expect(new Set(line).size).toBe(rows.length);
    expect(turns(rows.length, 3, 'every', 3 * rows.length)).toBe(columns.length);
  }
});

test('each group at every station: an open shop of unit jobs', () => {
  const source =
    'T. Gonzalez and S. Sahni, Open shop scheduling to minimize finish time, Journal of the ACM 23(4), 1976, section 2';
  for (const { jobs, machines, finish } of reference.values[source].unitJobs)
    expect(turns(machines, 2, 'every', 2 * jobs)).toBe(finish);
});

test('each group at one station: unit jobs on machines side by side', () => {
  const source = 'T. C. Hu, Parallel sequencing and assembly line problems, Operations Research 9(6), 1961, section 3';
  for (const { jobs, machines, finish } of reference.values[source].unitJobs)
    expect(turns(machines, 1, 'one', jobs)).toBe(finish);
});

test('people at one station that takes a group: a batch machine', () => {
  const source =
    'Y. Ikura and M. Gimple, Efficient scheduling algorithms for a single batch processing machine, Operations Research Letters 5(2), 1986, section 2';
  for (const { jobs, capacity, batches } of reference.values[source].batches)
    expect(turns(1, capacity, 'one', jobs)).toBe(batches);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
