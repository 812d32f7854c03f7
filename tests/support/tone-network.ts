import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PbfWriter } from 'pbf';

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
 * Words as tones, each from its time on.
 *
 * @param words and where each begins, s
 * @param seconds length of the whole
 */
export function sing(words: readonly (readonly [text: string, start: number])[], seconds: number) {
  const samples = new Float32Array(Math.round(seconds * RATE));
  const sung = words.map(([text, start]): Sung => {
    const letters = ['▁', ...text];
    letters.forEach((letter, i) => {
      const hz = pitch(letter);
      const from = Math.round((start + i * (SOUNDS + RESTS)) * RATE);
      const long = SOUNDS * RATE;
      for (let n = 0; n < long; n++) {
        const edge = Math.min(1, n / (0.01 * RATE), (long - n) / (0.01 * RATE));
        samples[from + n] = 0.3 * edge * Math.sin((2 * Math.PI * hz * n) / RATE);
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

const TOKENS = ['<blk>', ...LETTERS];

export interface Flaws {
  /** Its list of tokens lacks the one for silence, so that its library does not take it. */
  readonly noBlank?: boolean;
  /** It takes sound of one length only, and breaks down over every other. */
  readonly oneLength?: boolean;
}

/** Writes the network and its list of tokens into a folder. */
export async function writeToneNetwork(folder: string, { noBlank, oneLength }: Flaws = {}): Promise<string> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'model.onnx'), network(oneLength ?? false));
  const tokens = TOKENS.map((token, i) => `${noBlank && i === 0 ? '<none>' : token} ${i}\n`);
  await writeFile(join(folder, 'tokens.txt'), tokens.join(''));
  return folder;
}

/** Fields by their numbers in onnx.proto3 (ONNX); types: 1 a float, 7 a 64-bit integer. */
function network(oneLength: boolean): Uint8Array {
  const weights = new Float32Array(BANDS * TOKENS.length);
  LETTERS.forEach((_, i) => {
    weights[(FIRST + APART * i) * TOKENS.length + i + 1] = 1;
  });
  const levels = new Float32Array(TOKENS.length);
  levels[0] = LEVEL;
  const whole = (...numbers: number[]) => new Uint8Array(BigInt64Array.from(numbers, BigInt).buffer);
  const floats = (numbers: Float32Array) => new Uint8Array(numbers.buffer);
  return message((model) => {
    model.writeVarintField(1, 8);
    model.writeMessage(
      7,
      (_, graph) => {
        node(graph, 'Slice', ['x', 'zero', 'end', 'time', 'every'], 'some');
        if (oneLength) node(graph, 'Reshape', ['some', 'shape'], 'shaped');
        node(graph, 'MatMul', [oneLength ? 'shaped' : 'some', 'weights'], 'bands');
        node(graph, 'Add', ['bands', 'levels'], 'logits');
        node(graph, 'LogSoftmax', ['logits'], 'log_probs');
        node(graph, 'Add', ['x_lens', 'rest'], 'up');
        node(graph, 'Div', ['up', 'every'], 'log_probs_len');
        graph.writeStringField(2, 'tones');
        tensor(graph, 'zero', 7, [1], whole(0));
        tensor(graph, 'end', 7, [1], whole(1e9));
        tensor(graph, 'time', 7, [1], whole(1));
        tensor(graph, 'every', 7, [1], whole(EVERY));
        tensor(graph, 'rest', 7, [1], whole(EVERY - 1));
        if (oneLength) tensor(graph, 'shape', 7, [3], whole(1, 3, BANDS));
        tensor(graph, 'weights', 1, [BANDS, TOKENS.length], floats(weights));
        tensor(graph, 'levels', 1, [TOKENS.length], floats(levels));
        value(graph, 11, 'x', 1, ['N', 'T', BANDS]);
        value(graph, 11, 'x_lens', 7, ['N']);
        value(graph, 12, 'log_probs', 1, ['N', 'U', TOKENS.length]);
        value(graph, 12, 'log_probs_len', 7, ['N']);
      },
      null,
    );
    model.writeMessage(8, (_, opset) => opset.writeVarintField(2, 13), null);
    model.writeMessage(
      14,
      (_, entry) => {
        entry.writeStringField(1, 'model_type');
        entry.writeStringField(2, 'zipformer2_ctc');
      },
      null,
    );
  });
}

function message(write: (pbf: PbfWriter) => void): Uint8Array {
  const pbf = new PbfWriter();
  write(pbf);
  return pbf.finish();
}

function node(graph: PbfWriter, type: string, inputs: readonly string[], output: string): void {
  graph.writeMessage(
    1,
    (_, one) => {
      for (const input of inputs) one.writeStringField(1, input);
      one.writeStringField(2, output);
      one.writeStringField(4, type);
    },
    null,
  );
}

function tensor(graph: PbfWriter, name: string, type: number, dims: readonly number[], bytes: Uint8Array): void {
  graph.writeMessage(
    5,
    (_, one) => {
      for (const dim of dims) one.writeVarintField(1, dim);
      one.writeVarintField(2, type);
      one.writeStringField(8, name);
      one.writeBytesField(9, bytes);
    },
    null,
  );
}

function value(graph: PbfWriter, field: number, name: string, type: number, dims: readonly (string | number)[]): void {
  graph.writeMessage(
    field,
    (_, one) => {
      one.writeStringField(1, name);
      one.writeMessage(
        2,
        (_a, types) =>
          types.writeMessage(
            1,
            (_b, tensorType) => {
              tensorType.writeVarintField(1, type);
              tensorType.writeMessage(
                2,
                (_c, shape) => {
                  for (const dim of dims)
                    shape.writeMessage(
                      1,
                      (_d, each) =>
                        typeof dim === 'number' ? each.writeVarintField(1, dim) : each.writeStringField(2, dim),
                      null,
                    );
                },
                null,
              );
            },
            null,
          ),
        null,
      );
    },
    null,
  );
}
