import type { Shot } from '../script/timeline.ts';
import { clang, clap, dice, type Noise, room, WORK } from './noises.ts';
import type { SceneSound } from './soundtrack.ts';
import { SAMPLE_RATE } from './speech.ts';

/** Which work a step sounds like; the others ratchet. */
const WORK_OF: Readonly<Record<string, keyof typeof WORK>> = {
  'measure-the-chain-over-twenty-pitches': 'screw',
  'find-the-tight-spot': 'roll',
  'read-the-teeth': 'brush',
  'lift-the-chain-off-the-teeth': 'roll',
  'draw-the-axle-and-lower-the-wheel': 'tap',
  'open-the-sprocket-cover': 'brush',
  'push-out-the-old-rivet': 'screw',
  'count-and-cut-the-new-chain': 'roll',
  'lead-the-chain-round': 'roll',
  'press-the-rivet-link-together': 'screw',
  'flare-the-rivets': 'screw',
  'put-the-wheel-back': 'tap',
  'line-the-wheel-up': 'screw',
  'oil-it-and-write-it-down': 'roll',
  'cover-the-paint': 'brush',
  'read-the-fluid': 'brush',
  'feel-the-lever': 'pump',
  'draw-the-old-pads': 'brush',
  'measure-the-disc': 'roll',
  'clean-the-caliper-and-press-the-pistons-back': 'brush',
  'fit-the-new-pads': 'tap',
  'empty-and-fill-the-reservoir': 'pump',
  'hang-the-bottle-on-the-bleed-screw': 'screw',
  'pump-the-old-fluid-out': 'pump',
  'chase-the-last-air': 'tap',
  'hold-the-lever': 'pump',
  'spin-the-wheel': 'roll',
  'wash-down-and-clear-up': 'brush',
  'bed-the-pads-in': 'roll',
};

/** The sound of a step's work. */
export function workOf(step: string): keyof typeof WORK {
  return WORK_OF[step] ?? 'ratchet';
}

/** The whole sound of a recording: mono, 16 bit, 16 kHz. */
export function mix(shots: readonly Shot[], sounds: readonly SceneSound[], seconds: number, seed: number): Int16Array {
  const total = new Float32Array(Math.round(seconds * SAMPLE_RATE));
  const hum = room(seed);
  for (let i = 0; i < total.length; i++) total[i] = hum(i);
  const random = dice(seed + 1);
  const add = (start: number, end: number, noise: Noise) => {
    const from = Math.round(start * SAMPLE_RATE);
    const to = Math.min(total.length, Math.round(end * SAMPLE_RATE));
    for (let i = from; i < to; i++) total[i] = (total[i] ?? 0) + noise((i - from) / SAMPLE_RATE, random);
  };
  for (const [n, sound] of sounds.entries()) {
    const scene = shots[n]?.scene;
    for (const { start, end } of sound.working) add(start, end, WORK[workOf(scene?.of ?? '')]);
    if (sound.knock !== undefined) add(sound.knock, sound.knock + 1.4, scene?.kind === 'slate' ? clap : clang);
    for (const { start, samples, gain } of sound.spoken) {
      const from = Math.round(start * SAMPLE_RATE);
      for (let i = 0; i < samples.length; i++) total[from + i] = (total[from + i] ?? 0) + (samples[i] ?? 0) * gain;
    }
  }
  return Int16Array.from(total, (sample) => Math.round(Math.max(-0.98, Math.min(0.98, sample)) * 32_767));
}
