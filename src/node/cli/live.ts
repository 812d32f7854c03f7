import type { Display } from '../media/progress.ts';
import type { Context } from './command.ts';

/**
 * Progress on a command's standard error: one line that changes on a terminal, a line now and then elsewhere; with
 * LIFTSIDE_PROGRESS=often a line at each step, for a program that shows it.
 */
export function liveDisplay({ terminal, say, now, live, env }: Context): Display {
  const often = env.LIFTSIDE_PROGRESS === 'often';
  return {
    terminal: often || (terminal && live !== undefined),
    line: (text) => (terminal && live ? live(text) : say(text)),
    now: () => now().getTime(),
  };
}
