import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { FLOATS, floats, type Network, onnxFile, WHOLES, wholes } from './onnx-file.ts';

/**
 * A network that hears an alphabet of tones, for tests of what recognises speech: each letter is a pure tone, at the
 * middle of a band of the filterbank that the recogniser feeds its models. The network reads that band and nothing else:
 * its weights are a one where a letter has its band, and a level below which nothing sounds.
 */

/** Letters in the order of their tones, the beginning of a word first. */
export const LETTERS = ['▁', ...'abcdefghijklmnopqrstuvwxyz'];
/** Bands of the filterbank, its lowest and highest edge, Hz. Source: the library's own settings, as of Kaldi's fbank. */
const BANDS = 80;
const [LOWEST, HIGHEST] = [20, 7600];
/** The band of the first letter, and how many lie between two. */
const [FIRST, APART] = [22, 2];
/** A tone's band comes to 6 and more by its logarithm, silence to −16. */
const LEVEL = 2;
/** Every so many frames of 10 ms one token may begin. Source: the library's reader of this kind of model. */
const EVERY = 4;
export const RATE = 16_000;

/** Pitch of a letter, Hz. Source: the mel scale as Kaldi has it, 1127 · ln(1 + f/700); bands overlap by half. */
function pitch(letter: string): number {
  const mel = (hz: number) => 1127 * Math.log(1 + hz / 700);
  const band = FIRST + APART * LETTERS.indexOf(letter);
  const middle = mel(LOWEST) + ((band + 1) * (mel(HIGHEST) - mel(LOWEST))) / (BANDS + 1);
  return 700 * (Math.exp(middle / 1127) - 1);
}

/** How long a letter sounds, and the rest behind it, s. */
export const [SOUNDS, RESTS] = [0.12, 0.08];

export interface Sung {
  readonly text: string;
  /** s */
  readonly start: number;
  readonly end: number;
}

/**
 * Words as tones, each from its time on. A letter that is not sure is written as two in brackets, `n[ou]t`: both sound,
 * the first a little louder.
 *
 * @param words and where each begins, s
 * @param seconds length of the whole
 */
export function sing(words: readonly (readonly [text: string, start: number])[], seconds: number) {
  const samples = new Float32Array(Math.round(seconds * RATE));
  const sung = words.map(([text, start]): Sung => {
    const letters = ['▁', ...(text.match(/\[..\]|./gu) ?? [])];
    letters.forEach((letter, i) => {
      const [first = '', second] = letter.replaceAll(/[[\]]/g, '');
      const tones =
        second === undefined
          ? [[pitch(first), 0.3]]
          : [
              [pitch(first), 0.3],
              [pitch(second), 0.25],
            ];
      const from = Math.round((start + i * (SOUNDS + RESTS)) * RATE);
      const long = SOUNDS * RATE;
      for (let n = 0; n < long; n++) {
        const edge = Math.min(1, n / (0.01 * RATE), (long - n) / (0.01 * RATE));
        for (const [hz = 0, level = 0] of tones)
          samples[from + n] = (samples[from + n] ?? 0) + level * edge * Math.sin((2 * Math.PI * hz * n) / RATE);
      }
    });
    return { text, start, end: start + letters.length * (SOUNDS + RESTS) };
  });
  return { samples, sung };
}

/** One channel of 32-bit floats as a WAV file. Source: RIFF WAVE, format 3 (IEEE float). */
export function wavOf(samples: Float32Array): Uint8Array {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + samples.byteLength, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(3, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE, 24);
  head.writeUInt32LE(RATE * 4, 28);
  head.writeUInt16LE(4, 32);
  head.writeUInt16LE(32, 34);
  head.write('data', 36);
  head.writeUInt32LE(samples.byteLength, 40);
  return Buffer.concat([head, Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength)]);
}

const BLANK = '<blk>';
const TOKENS = [BLANK, ...LETTERS];
const tokenList = (blank: string) => [blank, ...LETTERS].map((token, i) => `${token} ${i}\n`).join('');

export interface Flaws {
  /** Its list of tokens lacks the one for silence, so that its library does not take it. */
  readonly noBlank?: boolean;
  /** It takes sound of one length only, and breaks down over every other. */
  readonly oneLength?: boolean;
}

/** Writes the network and its list of tokens into a folder. */
export async function writeToneNetwork(folder: string, { noBlank, oneLength }: Flaws = {}): Promise<string> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'model.onnx'), onnxFile(network(oneLength ?? false)));
  await writeFile(join(folder, 'tokens.txt'), tokenList(noBlank ? '<none>' : BLANK));
  return folder;
}

/** Reads the band of each letter, and a level in the place of silence. */
const hears = () => {
  const weights = new Float32Array(BANDS * TOKENS.length);
  LETTERS.forEach((_, i) => {
    weights[(FIRST + APART * i) * TOKENS.length + i + 1] = 1;
  });
  const levels = new Float32Array(TOKENS.length);
  levels[0] = LEVEL;
  return [
    wholes('zero', 0),
    wholes('end', 1e9),
    wholes('time', 1),
    wholes('every', EVERY),
    wholes('rest', EVERY - 1),
    floats('weights', [BANDS, TOKENS.length], weights),
    floats('levels', [TOKENS.length], levels),
  ];
};
const SOUND = [
  { name: 'x', type: FLOATS, shape: ['N', 'T', BANDS] },
  { name: 'x_lens', type: WHOLES, shape: ['N'] },
];

function network(oneLength: boolean): Network {
  const shaped = oneLength ? 'shaped' : 'some';
  return {
    nodes: [
      ['Slice', 'x zero end time every', 'some'],
      ...(oneLength ? [['Reshape', 'some shape', 'shaped'] as const] : []),
      ['MatMul', `${shaped} weights`, 'bands'],
      ['Add', 'bands levels', 'logits'],
      ['LogSoftmax', 'logits', 'log_probs'],
      ['Add', 'x_lens rest', 'up'],
      ['Div', 'up every', 'log_probs_len'],
    ],
    constants: [...hears(), ...(oneLength ? [wholes('shape', 1, 3, BANDS)] : [])],
    inputs: SOUND,
    outputs: [
      { name: 'log_probs', type: FLOATS, shape: ['N', 'U', TOKENS.length] },
      { name: 'log_probs_len', type: WHOLES, shape: ['N'] },
    ],
    metadata: { model_type: 'zipformer2_ctc' },
  };
}

/**
 * Writes a network of the kind that takes hot words (a transducer) and its list of tokens into a folder. It writes no
 * letter twice in a row, nor one of two that are alike after the other: what was written last weighs nothing until
 * another one comes.
 */
export async function writeToneTransducer(folder: string, alike: string): Promise<string> {
  const last = new Float32Array(TOKENS.length * TOKENS.length);
  for (let i = 1; i < TOKENS.length; i++) last[i * TOKENS.length + i] = -100;
  for (const before of alike)
    for (const after of alike) last[TOKENS.indexOf(before) * TOKENS.length + TOKENS.indexOf(after)] = -100;
  const row = (name: string) => ({ name, type: FLOATS, shape: ['N', TOKENS.length] });
  const encoder: Network = {
    nodes: [
      ['Slice', 'x zero end time every', 'some'],
      ['MatMul', 'some weights', 'bands'],
      ['Add', 'bands levels', 'encoder_out'],
      ['Add', 'x_lens rest', 'up'],
      ['Div', 'up every', 'encoder_out_lens'],
    ],
    constants: hears(),
    inputs: SOUND,
    outputs: [
      { name: 'encoder_out', type: FLOATS, shape: ['N', 'U', TOKENS.length] },
      { name: 'encoder_out_lens', type: WHOLES, shape: ['N'] },
    ],
    metadata: { model_type: 'zipformer2' },
  };
  const decoder: Network = {
    nodes: [
      ['Slice', 'y one two one', 'latest'],
      ['Squeeze', 'latest one', 'token'],
      ['Gather', 'last token', 'decoder_out'],
    ],
    constants: [wholes('one', 1), wholes('two', 2), floats('last', [TOKENS.length, TOKENS.length], last)],
    inputs: [{ name: 'y', type: WHOLES, shape: ['N', 2] }],
    outputs: [row('decoder_out')],
    metadata: { vocab_size: String(TOKENS.length), context_size: '2' },
  };
  const joiner: Network = {
    nodes: [['Add', 'encoder_out decoder_out', 'logit']],
    constants: [],
    inputs: [row('encoder_out'), row('decoder_out')],
    outputs: [row('logit')],
    metadata: { joiner_dim: String(TOKENS.length) },
  };
  await mkdir(folder, { recursive: true });
  for (const [name, part] of Object.entries({ encoder, decoder, joiner }))
    await writeFile(join(folder, `${name}.onnx`), onnxFile(part));
  await writeFile(join(folder, 'tokens.txt'), tokenList(BLANK));
  return folder;
}
