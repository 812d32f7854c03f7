import { stat } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { type Stretch, VOICE_RATE, VOICE_SETTINGS, VOICE_WINDOW } from '../../core/media/index.ts';
import { fail, ok, type Parsed } from '../../core/time/index.ts';

/** The network for speech, which stands in this project with its licence. */
export const VOICE_MODEL = fileURLToPath(
  new URL('../../../models/voice-activity/silero_vad_v5_16k.onnx', import.meta.url),
);

/** Listens to one file from its beginning to its end. */
export interface Listening {
  /**
   * Hears what comes next.
   *
   * @param samples `VOICE_WINDOW` of them, fewer only at the end; −1 … 1
   * @returns speech that has ended meanwhile, s from the first sample
   */
  hear(samples: Float32Array): Stretch[];
  /** Nothing comes any more. @returns speech that had not ended before */
  end(): Stretch[];
}

/** Something that tells speech from other sound. */
export interface Listener {
  /** Name and version, as results say it: another one gives other results. */
  readonly name: string;
  listen(): Listening;
}

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
      listen: () => {
        const vad = new sherpa.Vad(
          {
            sileroVad: { model, ...VOICE_SETTINGS, windowSize: VOICE_WINDOW },
            sampleRate: VOICE_RATE,
            numThreads: 1,
            debug: 0,
          },
          REMEMBERED,
        );
        const ended = (): Stretch[] => {
          const found: Stretch[] = [];
          for (; !vad.isEmpty(); vad.pop()) {
            const { start, samples } = vad.front(false);
            found.push([start / VOICE_RATE, (start + samples.length) / VOICE_RATE]);
          }
          return found;
        };
        return {
          hear: (samples) => {
            vad.acceptWaveform(samples);
            return ended();
          },
          end: () => {
            vad.flush();
            return ended();
          },
        };
      },
    });
  } catch {
    return fail(
      `the library that runs the network for speech has no program for this machine (${process.platform} ${process.arch})`,
      'npm install --include=optional brings it where there is one; without it speech is told by loudness',
    );
  }
}
