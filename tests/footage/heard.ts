import type { Shot } from './script/timeline.ts';
import { workOf } from './sound/mix.ts';
import type { SceneSound } from './sound/soundtrack.ts';

/** What stands in a caption, and when, s on the recording's clock. */
export interface Caption {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Pauses shorter than this need no words, s. */
const NOTICED = 10;
const SHOWN = 3;

const WORDS: Readonly<Record<ReturnType<typeof workOf>, string>> = {
  ratchet: '[ratchet clicks]',
  brush: '[brushing]',
  tap: '[tapping]',
  pump: '[fluid runs]',
  roll: '[wheel turns]',
  screw: '[tool turns]',
};

/** What can be heard in a scene beside words, as captions say it. */
export function noisesOf({ scene, start, end }: Shot, { spoken, working, knock }: SceneSound): readonly Caption[] {
  if (knock !== undefined)
    return [{ start: knock, end: knock + 2, text: scene.kind === 'slate' ? '[clap]' : '[a wrench falls]' }];
  if (scene.kind === 'idle') {
    const from = (spoken.at(-1)?.end ?? start / 10) + 3;
    return [{ start: from, end: end / 10 - 0.5, text: '[no speech]' }];
  }
  return working
    .filter((work) => work.end - work.start > NOTICED)
    .map((work) => ({ start: work.start + 1.5, end: work.start + 1.5 + SHOWN, text: WORDS[workOf(scene.of)] }));
}
