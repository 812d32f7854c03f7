import { ASIDES, DROPPED } from './say-between.ts';
import { RETAKES_BRAKE, SAY_BRAKE } from './say-brake.ts';
import { RETAKES_CHAIN, SAY_CHAIN } from './say-chain.ts';
import type { Scene, Shoot } from './scene.ts';
import { readRows, withValues } from './spoken.ts';

const SAY = { ...SAY_CHAIN, ...SAY_BRAKE };
const RETAKES = { ...RETAKES_CHAIN, ...RETAKES_BRAKE };

/** A stretch of speech, sentence by sentence. */
export interface Line {
  readonly sentences: readonly string[];
  /** Far from the microphone. */
  readonly aside: boolean;
}

const toLine = (text: string, aside = false): Line => ({ sentences: text.split(/(?<=[.?!])\s+/), aside });

/** What is said in each scene of a shoot, values filled in from the spec table. @throws Error where a scene has no words */
export function linesOf(shoot: Shoot): readonly (readonly Line[])[] {
  const rows = readRows();
  const used = new Map<string, number>();
  const count = (key: string) => {
    const before = used.get(key) ?? 0;
    used.set(key, before + 1);
    return before;
  };
  const said = (scene: Scene): readonly Line[] => {
    switch (scene.kind) {
      case 'slate':
        return [toLine(`Roll ${scene.of}.`, true)];
      case 'idle': {
        const aside = ASIDES[shoot.id]?.[count('idle')];
        return aside ? [toLine(aside, true)] : [];
      }
      case 'dropped':
        return [toLine(DROPPED)];
      case 'retake':
        return words(RETAKES[scene.of], scene);
      default:
        return words(SAY[scene.of]?.[count(`say ${scene.of}`)], scene);
    }
  };
  const words = (texts: readonly string[] | undefined, { kind, of }: Scene) => {
    if (!texts) throw new Error(`nothing is said in the ${kind} ${of}`);
    return texts.map((text) => toLine(withValues(text, rows)));
  };
  return shoot.scenes.map(said);
}
