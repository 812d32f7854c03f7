import { cameraInput } from './input-args.ts';

/** What the network for speech listens to: samples a second, and samples it takes at a time. */
export const VOICE_RATE = 16_000;
export const VOICE_WINDOW = 512;

/**
 * How the network decides. The threshold is low because a word that is missed costs more than a breath that is kept;
 * it and the shortest speech were chosen on one of the demo's recordings, and are judged on others.
 */
export const VOICE_SETTINGS = {
  /** Probability, 0 … 1. */
  threshold: 0.2,
  /** s */
  minSpeechDuration: 0.1,
  /** A rest shorter than this is part of speech, s. */
  minSilenceDuration: 0.4,
  /** Longer speech is told in parts that touch, so that memory stays bounded, s. */
  maxSpeechDuration: 20,
} as const;

/**
 * Arguments that write a file's sound as the network takes it: one channel, 32-bit floats.
 *
 * @param output a path; the standard output when left out
 */
export function voiceArgs(path: string, stream: number, output = 'pipe:1'): string[] {
  const chain = `[0:${stream}]aresample=${VOICE_RATE}:async=1:osf=flt:ochl=mono[voice]`;
  // Written in large parts: to hand over each packet by itself takes both sides as long as decoding does.
  const out = ['-f', 'f32le', '-flush_packets', '0', output];
  return [...cameraInput(path), '-filter_complex', chain, '-map', '[voice]', ...out];
}
