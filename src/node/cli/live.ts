import type { Display } from '../media/progress.ts';
import type { Context } from './command.ts';

/** Progress on a command's standard error: one line that changes on a terminal, a line now and then elsewhere. */
export function liveDisplay({ terminal, say, now, live }: Context): Display {
  return {
    terminal: terminal && live !== undefined,
    line: (text) => (terminal && live ? live(text) : say(text)),
    now: () => now().getTime(),
  };
}
