import type { Lesson, Machine, Shop, Spec, Step } from '../core/model/index.ts';
import { citedSpecs, sourceInWords } from '../core/programme/index.ts';
import { readAmount, showTorqueTimes, valueIn, wrenchSetting } from '../core/spec/index.ts';

/** What to set for one row, in words. */
interface WrenchSetting {
  readonly row: Spec;
  readonly text: string;
}

/** What to set a torque wrench to where a step lengthens it by an adapter in line, in words; none without one. */
export function wrenchSettings(shop: Shop, machine: Machine, lesson: Lesson, step: Step): WrenchSetting[] {
  const tools = step.uses.flatMap(({ group, id }) => (group === 'tool' ? [shop.kit.tools?.[id]] : []));
  const adapter = tools.find((tool) => tool?.extension);
  const wrench = tools.find((tool) => tool?.kind === 'torque-wrench' && tool.lever);
  const length = (written: Parameters<typeof readAmount>[0] | undefined) => {
    const amount = written && readAmount(written, 'length', []).amount;
    return amount && valueIn(amount, 'length', 'mm');
  };
  const [lever, extension] = [length(wrench?.lever), length(adapter?.extension)];
  if (lever === undefined || extension === undefined || lever + extension <= 0) return [];
  const set = new Set(step.cites.filter(({ measured }) => !measured).map(({ spec }) => spec));
  return citedSpecs(machine, lesson, step)
    .flatMap(({ rows }) => rows)
    .flatMap(({ row, whose }) => {
      const { quantity, title, id } = row;
      if (!set.has(id) || quantity?.kind !== 'torque' || quantity.amount.nominal === undefined) return [];
      if (!sourceInWords(shop, machine.id, row)) return [];
      const { nominal, unit } = quantity.amount;
      const by = wrenchSetting(1, lever, extension);
      const { primary, secondary } = showTorqueTimes({ nominal, unit }, by, shop.info.units);
      const said = `${title}${whose ? `, ${whose}` : ''}: with ${adapter?.title} in line set ${wrench?.title} to ${primary}${secondary ? ` (${secondary})` : ''}, T · L/(L + E) = ${nominal} ${unit} · ${lever}/(${lever} + ${extension})`;
      return [{ row, text: said }];
    });
}
