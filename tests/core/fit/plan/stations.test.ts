import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lastTurn, roomInTurns, rotationsOf } from '../../../../src/core/fit/plan/stations.ts';

const at = (count: number, group: number, visit: 'one' | 'every' = 'one') => ({ count, group, visit, minutes: 10 });

/** Sends groups to stations turn by turn until each has worked at one. */
function turnsByHand(groups: number, count: number): number {
  let [waiting, turns] = [groups, 0];
  for (; waiting > 0; turns++) waiting -= Math.min(waiting, count);
  return turns;
}

/** The fewest turns in which each group can work at each station, by trying every way of sending them. */
function fewestTurns(groups: number, count: number): number {
  const fits = (turns: number): boolean => {
    const pairs = Array.from({ length: groups * count }, (_, i) => ({
      group: i % groups,
      station: Math.floor(i / groups),
    }));
    const busy = Array.from({ length: turns }, () => ({ groups: new Set<number>(), stations: new Set<number>() }));
    const place = (index: number): boolean => {
      const pair = pairs[index];
      if (!pair) return true;
      return busy.some((turn) => {
        if (turn.groups.has(pair.group) || turn.stations.has(pair.station)) return false;
        turn.groups.add(pair.group);
        turn.stations.add(pair.station);
        if (place(index + 1)) return true;
        turn.groups.delete(pair.group);
        turn.stations.delete(pair.station);
        return false;
      });
    };
    return place(0);
  };
  let turns = 1;
  while (!fits(turns)) turns++;
  return turns;
}

test('each at one station: as many turns as sending the groups by hand takes', () => {
  fc.assert(
    fc.property(fc.nat(40), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }), (people, count, group) => {
      const attendees = people + 1;
      expect(rotationsOf(at(count, group), attendees)).toBe(turnsByHand(Math.ceil(attendees / group), count));
    }),
    { numRuns: 1000, seed: 9 },
  );
});

test('each at every station: no schedule has fewer turns, and one has as many', () => {
  for (let groups = 1; groups <= 4; groups++)
    for (let count = 1; count <= 4; count++)
      expect([groups, count, rotationsOf(at(count, 1, 'every'), groups)]).toEqual([
        groups,
        count,
        fewestTurns(groups, count),
      ]);
});

// The edges of a complete bipartite graph with n and m nodes take max(n, m) colours (D. König, Mathematische Annalen 77,
// 1916; in textbooks the chromatic index of K(3,3) is 3, of K(2,5) is 5). A turn is a colour, an edge a group at a station.
test.each([
  [3, 3, 3],
  [5, 2, 5],
  [2, 5, 5],
  [4, 3, 4],
])('%d groups at each of %d stations take %d turns', (groups, count, turns) => {
  expect(rotationsOf(at(count, 2, 'every'), groups * 2)).toBe(turns);
});

describe('the last turn', () => {
  test('nine at four vices, two at each: the ninth needs a second turn; three at one vice, or a fifth one, do without', () => {
    expect(lastTurn(at(4, 2), 9)).toEqual({ turns: 2, attendee: 9, over: 1, group: 3, count: 5 });
    expect(lastTurn(at(4, 2), 8)).toBeUndefined();
  });

  test('where each works at every station, more stations save nothing, larger groups do', () => {
    expect(lastTurn(at(3, 2, 'every'), 7)).toEqual({ turns: 4, attendee: 7, over: 1, group: 3 });
    expect(lastTurn(at(3, 2, 'every'), 6)).toBeUndefined();
  });

  test('what it names is right and the least, for any stations and attendees', () => {
    const visits = fc.constantFrom('one' as const, 'every' as const);
    const small = fc.integer({ min: 1, max: 5 });
    fc.assert(
      fc.property(small, small, fc.integer({ min: 1, max: 30 }), visits, (count, group, attendees, visit) => {
        const stations = at(count, group, visit);
        const turns = rotationsOf(stations, attendees);
        expect(rotationsOf(stations, roomInTurns(stations, attendees))).toBe(turns);
        expect(rotationsOf(stations, roomInTurns(stations, attendees) + 1)).toBe(turns + 1);
        const last = lastTurn(stations, attendees);
        if (!last) return;
        expect(rotationsOf(stations, last.attendee)).toBe(turns);
        expect(rotationsOf(stations, last.attendee - 1)).toBeLessThan(turns);
        if (last.group !== undefined) {
          expect(rotationsOf({ ...stations, group: last.group }, attendees)).toBeLessThan(turns);
          expect(rotationsOf({ ...stations, group: last.group - 1 }, attendees)).toBe(turns);
        }
        if (last.count !== undefined) {
          expect(rotationsOf({ ...stations, count: last.count }, attendees)).toBeLessThan(turns);
          expect(rotationsOf({ ...stations, count: last.count - 1 }, attendees)).toBe(turns);
        }
      }),
      { numRuns: 1000, seed: 25 },
    );
  });
});
