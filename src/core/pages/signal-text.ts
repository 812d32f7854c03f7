import { english, type Wording } from '../locale/index.ts';
import type { SignalWord } from '../model/index.ts';

/**
 * The signal words on a plate. In other languages the word that their edition of the standard gives: Spanish has
 * PELIGRO, ADVERTENCIA, ATENCIÓN (ISO 3864-2:2016 as UNE-ISO; ANSI Z535.4 gives PRECAUCIÓN for caution in Spanish) and
 * AVISO; from memory.
 */
const PLATES: Readonly<Record<SignalWord, string>> = {
  danger: english('DANGER'),
  warning: english('WARNING'),
  caution: english('CAUTION'),
  notice: english('NOTICE'),
};

/** A signal word as it stands on a plate. */
export function signalText(word: SignalWord, t: Wording['t']): string {
  return t(PLATES[word]);
}
