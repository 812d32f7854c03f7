import type { Lesson, Machine, Shop, Step } from '../core/model/index.ts';
import { rowsFor } from '../core/programme/index.ts';
import { readAmount, showQuantity, valueIn, wrenchSetting } from '../core/spec/index.ts';

/** What to set a torque wrench to where a step lengthens it by an adapter in line, in words; none without one. */
export function wrenchSettings(shop: Shop, machine: Machine, lesson: Lesson, step: Step): string[] {
  const tools = step.uses.flatMap(({ group, id }) => (group === 'tool' ? [shop.kit.tools?.[id]] : []));
  const adapter = tools.find((tool) => tool?.extension);
  const wrench = tools.find((tool) => tool?.kind === 'torque-wrench' && tool.lever);
  const length = (written: Parameters<typeof readAmount>[0] | undefined) => {
    const amount = written && readAmount(written, 'length', []).amount;
    return amount && valueIn(amount, 'length', 'mm');
  };
  const [lever, extension] = [length(wrench?.lever), length(adapter?.extension)];
  if (lever === undefined || extension === undefined || lever + extension <= 0) return [];
  const ids = [...new Set(step.cites.filter(({ measured }) => !measured).map(({ spec }) => spec))];
  return ids
    .flatMap((id) => rowsFor(machine, lesson, id))
    .flatMap(({ row: { quantity, title }, whose }) => {
      if (quantity?.kind !== 'torque' || quantity.amount.nominal === undefined) return [];
      const set = wrenchSetting(quantity.amount.nominal, lever, extension);
      const amount = { nominal: Number(set.toPrecision(3)), unit: quantity.amount.unit };
      const { primary, secondary } = showQuantity({ kind: 'torque', amount }, shop.info.units);
      return `${title}${whose ? `, ${whose}` : ''}: with ${adapter?.title} in line set ${wrench?.title} to ${primary}${secondary ? ` (${secondary})` : ''}, T · L/(L + E) = ${quantity.amount.nominal} · ${lever}/(${lever} + ${extension})`;
    });
}
