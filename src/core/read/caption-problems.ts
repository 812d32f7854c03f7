import type { Diagnostic, Place } from '../model/index.ts';
import { type FaultId, tell } from './faults.ts';

/** More than this of one file help nobody; the rest is counted. */
const MOST = 100;

/** What reading captions has to tell: nothing is left out in silence, and a ruined file does not drown the rest. */
export class CaptionProblems {
  readonly #told: Diagnostic[] = [];
  #untold = 0;

  tell(fault: FaultId, place: Place, message: string, help: string): void {
    if (this.#told.length < MOST) this.#told.push(tell(fault, place, message, help));
    else this.#untold++;
  }

  all(): readonly Diagnostic[] {
    const last = this.#told.at(-1);
    if (this.#untold === 0 || !last) return this.#told;
    return [
      ...this.#told,
      { ...last, message: `and ${this.#untold} more problems`, help: 'mend the first ones, then look again' },
    ];
  }
}
