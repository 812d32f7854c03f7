/**
 * Writes the network that tells speech from other sound without what is only there for other rates and batches:
 *
 *     npx node tests/support/flat-network.ts silero_vad_v5.onnx models/voice-activity/silero_vad_v5_16k.onnx
 *
 * As it is published, it asks at each window which rate it has and how many dimensions everything is of, some two hundred
 * steps. Weights and arithmetic are the same; only what never changes at 16 kHz and one channel is left out.
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

/** Rows of the four gates from the order of who made the network (input, forget, cell, output) to that of ONNX. */
function gates(rows: Float32Array): Float32Array {
  const size = rows.length / 4;
  const [input, forget, cell, output] = [0, 1, 2, 3].map((gate) => rows.slice(gate * size, (gate + 1) * size));
  return Float32Array.from([input, output, forget, cell].flatMap((part) => [...(part ?? [])]));
}

const [from = '', to = ''] = process.argv.slice(2);
const weights = weightsOf(await readFile(from));
const weight = (name: string) => {
  const found = weights.get(name);
  if (!found) throw new Error(`${from} has no ${name}; it has ${[...weights.keys()].join(', ')}`);
  return found;
};
const conv = (stride: number, size: number, edge: number) => ({
  kernel_shape: [size],
  strides: [stride],
  pads: [edge, edge],
});
const network = onnxFile({
  nodes: [
    ['Pad', 'input edge', 'padded', { mode: 'reflect' }],
    ['Unsqueeze', 'padded one', 'channel'],
    ['Conv', 'channel basis', 'spectrum', conv(128, 256, 0)],
    ['Slice', 'spectrum zero half one', 'real'],
    ['Slice', 'spectrum half whole one', 'imaginary'],
    ['Mul', 'real real', 'real2'],
    ['Mul', 'imaginary imaginary', 'imaginary2'],
    ['Add', 'real2 imaginary2', 'power'],
    ['Sqrt', 'power', 'magnitude'],
    ['Conv', 'magnitude w0 b0', 'c0', conv(1, 3, 1)],
    ['Relu', 'c0', 'r0'],
    ['Conv', 'r0 w1 b1', 'c1', conv(2, 3, 1)],
    ['Relu', 'c1', 'r1'],
    ['Conv', 'r1 w2 b2', 'c2', conv(2, 3, 1)],
    ['Relu', 'c2', 'r2'],
    ['Conv', 'r2 w3 b3', 'c3', conv(1, 3, 1)],
    ['Relu', 'c3', 'r3'],
    ['Squeeze', 'r3 two', 'row'],
    ['Unsqueeze', 'row zero', 'sequence'],
    ['Slice', 'state zero one zero', 'hidden'],
    ['Slice', 'state one two zero', 'cell'],
    ['LSTM', 'sequence w r b  hidden cell', 'all hiddenN cellN', { hidden_size: 128 }],
    ['Concat', 'hiddenN cellN', 'stateN', { axis: 0 }],
    ['Squeeze', 'hiddenN zero', 'last'],
    ['Relu', 'last', 'kept'],
    ['MatMul', 'kept w4', 'sum'],
    ['Add', 'sum b4', 'logit'],
    ['Sigmoid', 'logit', 'output'],
  ],
  constants: [
    wholes('edge', 0, 0, 0, 64),
    wholes('zero', 0),
    wholes('one', 1),
    wholes('two', 2),
    wholes('half', 129),
    wholes('whole', 258),
    floats('basis', [258, 1, 256], weight('stft.forward_basis_buffer')),
    ...(
      [
        [128, 129],
        [64, 128],
        [64, 64],
        [128, 64],
      ] as const
    ).flatMap(([rows, columns], i) => [
      floats(`w${i}`, [rows, columns, 3], weight(`encoder.${i}.reparam_conv.weight`)),
      floats(`b${i}`, [rows], weight(`encoder.${i}.reparam_conv.bias`)),
    ]),
    floats('w', [1, 512, 128], gates(weight('decoder.rnn.weight_ih'))),
    floats('r', [1, 512, 128], gates(weight('decoder.rnn.weight_hh'))),
    floats(
      'b',
      [1, 1024],
      Float32Array.from([...gates(weight('decoder.rnn.bias_ih')), ...gates(weight('decoder.rnn.bias_hh'))]),
    ),
    floats('w4', [128, 1], weight('decoder.decoder.2.weight')),
    floats('b4', [1], weight('decoder.decoder.2.bias')),
  ],
  inputs: [
    { name: 'input', type: FLOATS, shape: ['N', 576] },
    { name: 'state', type: FLOATS, shape: [2, 'N', 128] },
    { name: 'sr', type: WHOLES, shape: [] },
  ],
  outputs: [
    { name: 'output', type: FLOATS, shape: ['N', 1] },
    { name: 'stateN', type: FLOATS, shape: [2, 'N', 128] },
  ],
  metadata: {},
});
await writeFile(to, network);
