/**
 * Writes the network that tells speech from other sound as this program asks it: one channel at 16 kHz, one window after
 * the other.
 *
 *     npx node tests/support/flat-network.ts silero_vad_v5.onnx models/voice-activity/silero_vad_v5_16k.onnx
 *
 * As it is published, it asks at each window which rate it has and how many dimensions everything is of, some two hundred
 * steps. Here weights and arithmetic are the same, and what never changes is left out. Convolutions are written as what
 * they come to over so few frames, products with a table: a convolution reckons sixteen frames at a time, and there are
 * four, two and one of them.
 */
import { readFile, writeFile } from 'node:fs/promises';
import { PbfReader } from 'pbf';
import { FLOATS, floats, onnxFile, WHOLES, wholes } from './onnx-file.ts';

/** Weights by their names in the branch for 16 kHz, the first one of the file. Source of the numbers: onnx.proto3 (ONNX). */
function weightsOf(file: Uint8Array): Map<string, Float32Array> {
  const [graph] = inside(file, 7);
  const branch = inside(graph ?? new Uint8Array(), 1)
    .flatMap((node) => inside(node, 5))
    .find((attribute) => textOf(inside(attribute, 1)[0]) === 'then_branch');
  const found = new Map<string, Float32Array>();
  for (const node of inside(inside(branch ?? new Uint8Array(), 6)[0] ?? new Uint8Array(), 1)) {
    const name = textOf(inside(node, 2)[0]).replace(/^If_0_then_branch__(Inline_0__)?/, '');
    const raw = inside(node, 5)
      .flatMap((attribute) => inside(attribute, 5))
      .flatMap((tensor) => inside(tensor, 9))[0];
    if (raw && raw.length % 4 === 0) found.set(name, new Float32Array(Uint8Array.from(raw).buffer));
  }
  return found;
}

/** What a field with a length holds, each time it stands there. */
function inside(bytes: Uint8Array, field: number): Uint8Array[] {
  const found: Uint8Array[] = [];
  new PbfReader(bytes).readFields((tag, _, pbf) => {
    if (tag === field && pbf.type === 2) found.push(pbf.readBytes());
  }, null);
  return found;
}

const textOf = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

/** Weights of a convolution as the table that the frames of its taps, in one row, are multiplied with. */
function table(weights: Float32Array, inputs: number, size: number, taps: readonly number[]): Float32Array {
  const outputs = weights.length / inputs / size;
  return Float32Array.from({ length: taps.length * inputs * outputs }, (_, i) => {
    const row = Math.floor(i / outputs);
    const [tap, input] = [taps[Math.floor(row / inputs)] ?? 0, row % inputs];
    return weights[((i % outputs) * inputs + input) * size + tap] ?? 0;
  });
}

/** The four gates of a recurrent layer (input, forget, cell, output) with the one that is no share, the cell's, last. */
function gates(rows: Float32Array): Float32Array {
  const size = rows.length / 4;
  return Float32Array.from([0, 1, 3, 2].flatMap((gate) => [...rows.slice(gate * size, (gate + 1) * size)]));
}

const [from = '', to = ''] = process.argv.slice(2);
const weights = weightsOf(await readFile(from));
const weight = (name: string) => {
  const found = weights.get(name);
  if (!found) throw new Error(`${from} has no ${name}; it has ${[...weights.keys()].join(', ')}`);
  return found;
};
const encoder = (layer: number) => weight(`encoder.${layer}.reparam_conv.weight`);
/** The last 64 samples of the window before, then its own 512; mirrored at the end, where four frames go past it. */
const SAMPLES = 576;
const framed = Array.from({ length: 4 * 256 }, (_, i) => {
  const at = Math.floor(i / 256) * 128 + (i % 256);
  return at < SAMPLES ? at : 2 * (SAMPLES - 1) - at;
});
const [weightIn, weightBack] = [weight('decoder.rnn.weight_ih'), weight('decoder.rnn.weight_hh')];
const biasIn = gates(weight('decoder.rnn.bias_ih'));
const biasBack = gates(weight('decoder.rnn.bias_hh'));
const network = onnxFile({
  nodes: [
    // Spectrum: four frames of 256 samples, 128 apart.
    ['Gather', 'input framed', 'frames', { axis: 1 }],
    ['MatMul', 'frames basis', 'spectrum'],
    ['Mul', 'spectrum spectrum', 'squares'],
    ['Split', 'squares halves', 'real imaginary', { axis: 2 }],
    ['Add', 'real imaginary', 'power'],
    ['Sqrt', 'power', 'magnitude'],
    // Three frames wide, at each of four.
    ['Concat', 'silence magnitude silence', 'edged', { axis: 1 }],
    ['Gather', 'edged threes', 'near0', { axis: 1 }],
    ['Reshape', 'near0 four', 'rows0'],
    ['Gemm', 'rows0 w0 b0', 'c0'],
    ['Relu', 'c0', 'r0'],
    // Three frames wide, at every second.
    ['Concat', 'nothing r0', 'led', { axis: 0 }],
    ['Gather', 'led pairs', 'near1', { axis: 0 }],
    ['Reshape', 'near1 two', 'rows1'],
    ['Gemm', 'rows1 w1 b1', 'c1'],
    ['Relu', 'c1', 'r1'],
    // One frame is left: of three taps two are on a frame, then one.
    ['Reshape', 'r1 one', 'rows2'],
    ['Gemm', 'rows2 w2 b2', 'c2'],
    ['Relu', 'c2', 'r2'],
    ['Gemm', 'r2 w3 b3', 'c3'],
    ['Relu', 'c3', 'row'],
    // What it remembers (LSTM).
    ['Reshape', 'state both', 'memory'],
    ['Split', 'memory each', 'hidden cell', { axis: 0 }],
    ['Concat', 'row hidden', 'known', { axis: 1 }],
    ['Gemm', 'known w b', 'gates'],
    ['Split', 'gates kinds', 'shares raw', { axis: 1 }],
    ['Sigmoid', 'shares', 'share'],
    ['Split', 'share', 'takeIn keep give', { axis: 1 }],
    ['Tanh', 'raw', 'fresh'],
    ['Mul', 'takeIn fresh', 'added'],
    ['Mul', 'keep cell', 'kept'],
    ['Add', 'kept added', 'cellN'],
    ['Tanh', 'cellN', 'squashed'],
    ['Mul', 'give squashed', 'hiddenN'],
    ['Concat', 'hiddenN cellN', 'memoryN', { axis: 0 }],
    ['Reshape', 'memoryN apart', 'stateN'],
    ['Relu', 'hiddenN', 'last'],
    ['Gemm', 'last w4 b4', 'logit'],
    ['Sigmoid', 'logit', 'output'],
  ],
  constants: [
    { ...wholes('framed', ...framed), shape: [4, 256] },
    { ...wholes('threes', 0, 1, 2, 1, 2, 3, 2, 3, 4, 3, 4, 5), shape: [4, 3] },
    { ...wholes('pairs', 0, 1, 2, 2, 3, 4), shape: [2, 3] },
    wholes('halves', 129, 129),
    wholes('four', 4, 3 * 129),
    wholes('two', 2, 3 * 128),
    wholes('one', 1, 2 * 64),
    wholes('both', 2, 128),
    wholes('each', 1, 1),
    wholes('apart', 2, 1, 128),
    wholes('kinds', 3 * 128, 128),
    floats('silence', [1, 1, 129], new Float32Array(129)),
    floats('nothing', [1, 128], new Float32Array(128)),
    floats('basis', [256, 258], table(weight('stft.forward_basis_buffer'), 256, 1, [0])),
    floats('w0', [3 * 129, 128], table(encoder(0), 129, 3, [0, 1, 2])),
    floats('w1', [3 * 128, 64], table(encoder(1), 128, 3, [0, 1, 2])),
    floats('w2', [2 * 64, 64], table(encoder(2), 64, 3, [1, 2])),
    floats('w3', [64, 128], table(encoder(3), 64, 3, [1])),
    ...[128, 64, 64, 128].map((size, i) => floats(`b${i}`, [size], weight(`encoder.${i}.reparam_conv.bias`))),
    floats(
      'w',
      [2 * 128, 4 * 128],
      Float32Array.from([weightIn, weightBack].flatMap((rows) => [...table(gates(rows), 128, 1, [0])])),
    ),
    floats(
      'b',
      [4 * 128],
      biasIn.map((bias, i) => bias + (biasBack[i] ?? 0)),
    ),
    floats('w4', [128, 1], weight('decoder.decoder.2.weight')),
    floats('b4', [1], weight('decoder.decoder.2.bias')),
  ],
  inputs: [
    { name: 'input', type: FLOATS, shape: [1, SAMPLES] },
    { name: 'state', type: FLOATS, shape: [2, 1, 128] },
    { name: 'sr', type: WHOLES, shape: [] },
  ],
  outputs: [
    { name: 'output', type: FLOATS, shape: [1, 1] },
    { name: 'stateN', type: FLOATS, shape: [2, 1, 128] },
  ],
  metadata: {},
});
await writeFile(to, network);
