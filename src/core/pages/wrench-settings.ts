import { inFigures, type Locale, type Wording, wording } from '../locale/index.ts';
import type { Lesson, Machine, Shop, Spec, Step } from '../model/index.ts';
import { citedSpecs, lengthenedWrench, sourceInWords } from '../programme/index.ts';
import { type Amount, type Quantity, showTorqueTimes, stageKind, writtenAmount } from '../spec/index.ts';

/** What to set for one row, in words. */
interface WrenchSetting {
  readonly row: Spec;
  readonly text: string;
}

/** What to set a torque wrench to where a step lengthens it by an adapter in line, in words; none without one. */
export function wrenchSettings(shop: Shop, machine: Machine, lesson: Lesson, step: Step): WrenchSetting[] {
  const lengthened = lengthenedWrench(shop.kit, step);
  if (!lengthened) return [];
  const { t } = wording(shop.locale);
  const { adapter, wrench, lever, extension } = lengthened;
  const set = new Set(step.cites.filter(({ measured }) => !measured).map(({ spec }) => spec));
  return citedSpecs(machine, lesson, step, shop.locale)
    .flatMap(({ rows }) => rows)
    .flatMap(({ row, whose }) => {
      if (!set.has(row.id) || !sourceInWords(shop, machine.id, row)) return [];
      return torques(row.quantity, t).map(({ amount, stage }) => {
        const { primary, secondary } = showTorqueTimes(
          amount,
          [lever, lever + extension],
          shop.info.units,
          shop.locale,
        );
        const name = [row.title, whose, stage].filter((part) => part).join(', ');
        const value = secondary ? `${primary} (${secondary})` : primary;
        const [l, e] = [lever, extension].map((length) => inFigures(String(length), shop.locale));
        const sum = `T · L/(L + E) = ${factor(amount, shop.locale)} · ${l}/(${l} + ${e})`;
        const text = t('{name}: with {adapter} in line set {wrench} to {value}, {sum}', {
          name,
          adapter,
          wrench,
          value,
          sum,
        });
        return { row, text };
      });
    });
}

/** What a wrench is set for: the nominal value where there is one, else the limits; of a sequence each stage by torque. */
function torques(quantity: Quantity | undefined, t: Wording['t']): { amount: Amount; stage?: string }[] {
  const aim = ({ nominal, unit, ...limits }: Amount): Amount =>
    nominal === undefined ? { ...limits, unit } : { nominal, unit };
  if (quantity?.kind === 'torque') return [{ amount: aim(quantity.amount) }];
  if (quantity?.kind !== 'torque-sequence') return [];
  return quantity.stages.flatMap((stage, index) =>
    stageKind(stage) === 'torque' ? [{ amount: aim(stage), stage: t('stage {number}', { number: index + 1 }) }] : [],
  );
}

/** The torque as a factor: a range or limit in parentheses. */
function factor(amount: Amount, locale: Locale): string {
  const text = writtenAmount(amount, 'torque', locale);
  return amount.nominal === undefined ? `(${text})` : text;
}
