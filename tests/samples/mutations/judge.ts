import { check, RULES } from '../../../src/core/check/index.ts';
import type { Diagnostic, Shop, Spec } from '../../../src/core/model/index.ts';
import { Points } from '../../../src/core/read/points.ts';
import { readMachine } from '../../../src/core/read/read-machine.ts';
import { convert, type Part, partsOf, unitsCompare } from '../../../src/core/spec/index.ts';
import type { Mutant } from './mutants.ts';

/** What `check` makes of a mutant. */
export interface Judged {
  readonly mutant: Mutant;
  /** The first rule that tells it; nothing where none does. */
  readonly told?: string;
  /** True where what the row now aims at is still within what it allowed: nobody is led astray. */
  readonly within: boolean;
}

/** Rules that listen to every recording come last: most slips are told before. */
const SLOW = new Set(['spoken-value-wrong', 'shown-value-wrong', 'quantity-in-prose']);
const ORDERED = [...RULES.filter(({ id }) => !SLOW.has(id)), ...RULES.filter(({ id }) => SLOW.has(id))];

/**
 * Judges mutants of one spec table within a sound shop.
 *
 * @param id of the machine
 * @param today YYYY-MM-DD
 */
export function judge(shop: Shop, id: string, mutants: readonly Mutant[], today: string): Judged[] {
  const sound = shop.machines.find((machine) => machine.id === id);
  const listening = ORDERED.filter((rule) => readsMachines(shop, today, rule));
  return mutants.map((mutant) => {
    const { machine, diagnostics } = readMachine(id, mutant.text, new Points(`specs/${id}.yaml`, mutant.text));
    const read = diagnostics[0]?.rule;
    if (!machine) return { mutant, within: false, ...(read === undefined ? {} : { told: read }) };
    const within =
      mutant.slip !== 'year shifted' && mutant.rows.every((row) => aimsWithin(sound?.specs[row], machine.specs[row]));
    const machines = shop.machines.map((each) => (each.id === id ? machine : each));
    const told = read ?? listening.find((rule) => !walks(rule, { ...shop, machines }, today).next().done)?.id;
    return { mutant, within, ...(told === undefined ? {} : { told }) };
  });
}

/** What `check` tells of a shop with a mutant of one spec table, one finding for each cause. */
export function findingsOf(shop: Shop, id: string, mutant: Mutant, today: string): readonly Diagnostic[] {
  const { machine, diagnostics, broken } = readMachine(id, mutant.text, new Points(`specs/${id}.yaml`, mutant.text));
  const machines = shop.machines.flatMap((each) => (each.id === id ? (machine ?? []) : each));
  return check({ ...shop, machines, broken: new Set([...shop.broken, ...broken]) }, diagnostics, { today });
}

/** All walks of a rule, those of one lesson, one recording and one machine over all of them at once: what makes them quick later is not wanted here. */
function* walks({ check, lesson, recording, machine, around }: (typeof RULES)[number], shop: Shop, today: string) {
  yield* check?.(shop, { today }) ?? [];
  yield* machine?.(shop) ?? [];
  yield* lesson?.(shop) ?? [];
  yield* recording?.(shop, undefined) ?? [];
  yield* around?.(shop, today) ?? [];
}

/** A rule that never looks at the machines says of a mutant what it says of the sound shop. */
function readsMachines(shop: Shop, today: string, rule: (typeof RULES)[number]): boolean {
  let read = false;
  const watched = new Proxy(shop, {
    get(target, key) {
      read ||= key === 'machines';
      return Reflect.get(target, key);
    },
  });
  for (const _ of walks(rule, watched, today)) read = true;
  return read;
}

/** What each part of a row now aims at lies within what that part allowed before. */
function aimsWithin(before: Spec | undefined, after: Spec | undefined): boolean {
  const [old, now] = [before, after].map((row) => (row?.quantity ? partsOf(row.quantity) : []));
  return (
    !!old?.length &&
    old.length === now?.length &&
    old.every((part, index) => now[index] !== undefined && partWithin(part, now[index]))
  );
}

function partWithin({ kind, amount }: Part, now: Part): boolean {
  if (now.kind !== kind || !unitsCompare(kind, now.amount.unit, amount.unit)) return false;
  const own = (value: number) => convert(value, kind, now.amount.unit, amount.unit);
  const { nominal, min, max } = now.amount;
  const aims = nominal !== undefined ? [nominal] : [min, max].filter((limit) => limit !== undefined);
  const [low, high] = [
    amount.min ?? (amount.max === undefined ? amount.nominal : undefined) ?? Number.NEGATIVE_INFINITY,
    amount.max ?? (amount.min === undefined ? amount.nominal : undefined) ?? Number.POSITIVE_INFINITY,
  ];
  const hair = 1e-9 * Math.max(...aims.map((aim) => Math.abs(own(aim))), 1);
  return aims.every((aim) => own(aim) >= low - hair && own(aim) <= high + hair);
}
