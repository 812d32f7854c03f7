import { limitAfter } from './after.ts';
import type { Amount } from './amount.ts';
import { sideBefore } from './before.ts';
import type { Side } from './side.ts';

/** The side of a limit by the words next to a value alone: `under 4 mm`, `30 psi or more`. */
export function sideTyped({ pieces, to, unit, said }: Amount): { side: Side | undefined; to: number } {
  const behind = limitAfter(pieces, to, unit.kind);
  return { side: behind?.side ?? sideBefore(said.before, unit.kind, said.earlier), to: behind?.to ?? to };
}
