import type { Spec } from '../model/index.ts';
import { type Amount, type Quantity, type System, showQuantity } from '../spec/index.ts';

/**
 * Ways people type a unit, beside its symbol. Search splits words at marks such as `·`, so the forms without one
 * are needed to find "98 Nm". Common practice, no source.
 */
const SPOKEN: Readonly<Record<string, readonly string[]>> = {
  N·m: ['Nm', 'newton metres', 'newton meters'],
  lbf·ft: ['ft-lb', 'ftlb', 'foot-pounds', 'pound-feet'],
  lbf·in: ['in-lb', 'inlb', 'inch-pounds'],
  kPa: ['kilopascal'],
  psi: ['PSI'],
  mm: ['millimetres', 'millimeters'],
  in: ['inch', 'inches'],
  mL: ['ml', 'millilitres', 'cc'],
  L: ['litres', 'liters'],
  '°C': ['degrees Celsius', 'C'],
  '°F': ['degrees Fahrenheit', 'F'],
  '°': ['degrees'],
};

/**
 * A row's values as words that a search may match: in both unit systems as shown, and each number with
 * every way to say its unit.
 *
 * @param systems the shop's two unit systems
 */
export function specWords({ quantity }: Spec, systems?: readonly System[]): string[] {
  if (!quantity) return [];
  const { primary, secondary } = showQuantity(quantity, systems);
  const shown = [primary, secondary ?? ''].filter((text) => text);
  // Of a sequence each stage is looked for by itself.
  const stages = shown.flatMap((text) => text.split(', then '));
  return [...shown, ...stages.flatMap((text) => spokenForms(text)), ...amounts(quantity).flatMap(amountWords)];
}

function spokenForms(shown: string): string[] {
  const number = /[\d.]+/.exec(shown.replaceAll('\u202f', ''))?.[0];
  if (!number) return [];
  return Object.entries(SPOKEN)
    .filter(([symbol]) => shown.endsWith(` ${symbol}`))
    .flatMap(([, names]) => names.map((name) => `${number} ${name}`));
}

function amountWords({ nominal, min, max, unit }: Amount): string[] {
  const numbers = [nominal, min, max].filter((value) => value !== undefined);
  return numbers.flatMap((number) => (SPOKEN[unit] ?? []).flatMap((name) => [`${number} ${name}`, `${number}${name}`]));
}

function amounts(quantity: Quantity): readonly Amount[] {
  if (quantity.kind === 'torque-sequence') return quantity.stages;
  if (quantity.kind === 'interval') return [quantity.distance, quantity.time].filter((amount) => amount !== undefined);
  return 'amount' in quantity ? [quantity.amount] : [];
}
