import { stat } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { VadConfig } from 'sherpa-onnx-node';
import { VOICE_RATE, VOICE_SETTINGS, VOICE_WINDOW } from '../../core/media/index.ts';
import { fail, ok, type Parsed } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';

/** The network for speech, which stands in this project with its licence. */
export const VOICE_MODEL = fileURLToPath(
  new URL('../../../models/voice-activity/silero_vad_v5_16k.onnx', import.meta.url),
);

/** Speech in a piece of sound, samples from its first. */
export type SpeechSpans = [start: number, end: number][];

/** Part of a file of samples at `VOICE_RATE`: 32-bit floats as this machine has them, −1 … 1. */
export interface SoundPiece {
  readonly file: string;
  /** Its first sample in the file, and how many it has. */
  readonly from: number;
  readonly length: number;
}

/** Hears pieces of sound, one after the other, beside this thread. */
export interface Ear {
  /** Hears a piece by itself, from its beginning to its end. */
  hear(piece: SoundPiece): Promise<SpeechSpans>;
  /** Ends it, also in the middle of a piece. */
  close(): Promise<void>;
}

/** Something that tells speech from other sound. */
export interface Listener {
  /** Name and version, as results say it: another one gives other results. */
  readonly name: string;
  start(): Ear;
}

const WORKER = new URL('./voice-worker.mjs', import.meta.url);
/** Sound that the library remembers, s: more than the longest speech. */
const REMEMBERED = 60;

/**
 * The network, where its library runs on this machine: it is an optional dependency, with a program in it for each
 * kind of machine.
 *
 * @returns the listener, or why there is none
 */
export async function findListener(model = VOICE_MODEL): Promise<Parsed<Listener>> {
  if (!(await stat(model).catch(() => undefined))?.isFile())
    return fail(`the network for speech is not at ${model}`, 'install Liftside again: the file belongs to it');
  try {
    const { default: sherpa } = await import('sherpa-onnx-node');
    return ok({
      name: `sherpa-onnx ${sherpa.version}`,
      start: () =>
        startEar({
          config: {
            sileroVad: { model, ...VOICE_SETTINGS, windowSize: VOICE_WINDOW },
            sampleRate: VOICE_RATE,
            numThreads: 1,
            debug: 0,
          },
          remembered: REMEMBERED,
          window: VOICE_WINDOW,
        }),
    });
  } catch {
    return fail(
      `the library that runs the network for speech has no program for this machine (${process.platform} ${process.arch})`,
      'npm install --include=optional brings it where there is one; without it speech is told by loudness',
    );
  }
}

/** @param workerData how the library is set; its types do not reach the worker, which is plain JavaScript */
function startEar(workerData: { config: VadConfig; remembered: number; window: number }): Ear {
  const worker = new Worker(WORKER, { workerData, execArgv: [] });
  const waiting: { done: (heard: SpeechSpans) => void; failed: (error: unknown) => void }[] = [];
  worker.on('message', (heard: SpeechSpans) => waiting.shift()?.done(heard));
  const end = (error: unknown) => {
    for (const { failed } of waiting.splice(0)) failed(error);
  };
  worker.on('error', end);
  worker.on('exit', () => end(new OutsideFailure('the network for speech ended before its time', 'try again')));
  return {
    hear: (piece) =>
      new Promise((done, failed) => {
        waiting.push({ done, failed });
        worker.postMessage(piece);
      }),
    close: async () => {
      await worker.terminate();
    },
  };
}
