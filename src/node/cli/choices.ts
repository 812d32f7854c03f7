import type { Choose, Compared } from '../../core/pack/index.ts';
import { type Flags, OutsideFailure } from './command.ts';

/** What is named wins over "all". */
export function choiceOf(flags: Flags): Choose {
  const [take, keep] = [new Set(flags.texts('take')), new Set(flags.texts('keep'))];
  return (name) => {
    if (take.has(name)) return 'take';
    if (keep.has(name)) return 'keep';
    return take.has('all') ? 'take' : keep.has('all') ? 'keep' : undefined;
  };
}

/**
 * @param stays what has been left undone, in words
 * @throws OutsideFailure when a choice names nothing that differs, or both ways at once
 */
export function holdNames(flags: Flags, compared: readonly Compared[], stays: string): void {
  const differing = compared.filter(({ state }) => state === 'differs').map(({ name }) => name);
  const given = [...flags.texts('take'), ...flags.texts('keep')];
  const twice = given.find((name, index) => given.indexOf(name) !== index);
  if (twice !== undefined) throw new OutsideFailure(`"${twice}" is named twice`, `take it or keep it; ${stays}`, true);
  const wrong = given.find((name) => name !== 'all' && !differing.includes(name));
  if (wrong !== undefined)
    throw new OutsideFailure(
      `nothing of the name "${wrong}" differs`,
      differing.length > 0 ? `what differs: ${differing.join(', ')}; ${stays}` : `nothing differs; ${stays}`,
      true,
    );
}

/** What a plan does, for people. @param where the other side is, in a word or two */
export function planLines(compared: readonly Compared[], choose: Choose, where: string): string[] {
  const lines: string[] = [];
  const same = compared.filter(({ state }) => state === 'same').length;
  for (const { name, state } of compared) if (state === 'new') lines.push(`new: ${name}`);
  for (const { name, state, there } of compared)
    if (state === 'changed') lines.push(`changed there alone, taken: ${name}${there ? `: ${there}` : ''}`);
  for (const { name, state, here, there } of compared) {
    if (state === 'own') lines.push(`this shop’s own, not touched: ${name}`);
    if (state !== 'differs') continue;
    const chosen = choose(name);
    const word = chosen === 'take' ? 'differs, overwritten' : chosen === 'keep' ? 'differs, kept' : 'differs';
    lines.push(`${word}: ${name}`);
    if (here || there)
      lines.push(
        `  ${'here'.padEnd(where.length)}  ${here || '(nothing more)'}`,
        `  ${where}  ${there || '(nothing more)'}`,
      );
  }
  if (same > 0) lines.push(`the same here: ${same}`);
  return lines;
}
