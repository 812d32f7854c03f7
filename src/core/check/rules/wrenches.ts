import type { Kit, Passage } from '../../model/index.ts';
import { type Amount, convert, readAmount } from '../../spec/index.ts';

/** A torque wrench of the kit; without a range that can be read, its scale is not known. */
export interface Wrench {
  readonly id: string;
  readonly title: string;
  /** N·m */
  readonly scale?: { readonly min: number; readonly max: number };
}

/** The torque wrenches that a step uses. */
export function wrenchesOf(kit: Kit, { uses }: Passage): Wrench[] {
  return uses.flatMap(({ group, id }) => {
    const tool = group === 'tool' ? kit.tools?.[id] : undefined;
    if (tool?.kind !== 'torque-wrench') return [];
    const range = tool.range && readAmount(tool.range, 'torque', []).amount;
    if (!range || range.max === undefined) return [{ id, title: tool.title }];
    const [min, max] = [range.min ?? 0, range.max].map((value) => convert(value, 'torque', range.unit, 'N·m'));
    return [{ id, title: tool.title, scale: { min: min ?? 0, max: max ?? 0 } }];
  });
}

/** The lowest and highest torque that an amount allows or aims at, N·m; one side alone stands for both. */
export function torqueSpan({ nominal, min, max, unit }: Amount): { low: number; high: number } {
  const values = [min, nominal, max]
    .filter((value) => value !== undefined)
    .map((value) => convert(value, 'torque', unit, 'N·m'));
  return { low: Math.min(...values), high: Math.max(...values) };
}
