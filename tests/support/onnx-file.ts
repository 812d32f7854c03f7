import { PbfWriter } from 'pbf';

// Networks as files: the few parts of ONNX that tests need. Source of the field numbers: onnx.proto3 (ONNX).

/** Types of numbers. */
export const [FLOATS, WHOLES] = [1, 7];

export interface Tensor {
  readonly name: string;
  readonly type: number;
  readonly shape: readonly number[];
  readonly bytes: Uint8Array;
}

/** What goes in or comes out: its dimensions by number, or by name where they change. */
export interface Value {
  readonly name: string;
  readonly type: number;
  readonly shape: readonly (string | number)[];
}

/** What a node is set to: a number, several, or a word. */
export type Attributes = Readonly<Record<string, number | readonly number[] | string>>;

export interface Network {
  /** Inputs and outputs by their names, a blank between two; of an input that is left out the name is empty. */
  readonly nodes: readonly (readonly [type: string, inputs: string, outputs: string, attributes?: Attributes])[];
  readonly constants: readonly Tensor[];
  readonly inputs: readonly Value[];
  readonly outputs: readonly Value[];
  readonly metadata: Readonly<Record<string, string>>;
}

/** Whole numbers as a constant. */
export function wholes(name: string, ...numbers: number[]): Tensor {
  const bytes = new Uint8Array(BigInt64Array.from(numbers, BigInt).buffer);
  return { name, type: WHOLES, shape: [numbers.length], bytes };
}

/** Numbers as a constant, row by row. */
export function floats(name: string, shape: readonly number[], numbers: Float32Array): Tensor {
  return { name, type: FLOATS, shape, bytes: new Uint8Array(numbers.buffer) };
}

/** A network as the bytes of a file. */
export function onnxFile({ nodes, constants, inputs, outputs, metadata }: Network): Uint8Array {
  const model = new PbfWriter();
  model.writeVarintField(1, 8);
  inside(model, 7, (graph) => {
    for (const [type, from, to, attributes = {}] of nodes)
      inside(graph, 1, (node) => {
        for (const input of from.split(' ')) node.writeStringField(1, input);
        for (const output of to.split(' ')) node.writeStringField(2, output);
        node.writeStringField(4, type);
        for (const [key, value] of Object.entries(attributes))
          inside(node, 5, (attribute) => writeAttribute(attribute, key, value));
      });
    graph.writeStringField(2, 'network');
    for (const { name, type, shape, bytes } of constants)
      inside(graph, 5, (tensor) => {
        for (const size of shape) tensor.writeVarintField(1, size);
        tensor.writeVarintField(2, type);
        tensor.writeStringField(8, name);
        tensor.writeBytesField(9, bytes);
      });
    for (const value of inputs) writeValue(graph, 11, value);
    for (const value of outputs) writeValue(graph, 12, value);
  });
  inside(model, 8, (opset) => opset.writeVarintField(2, 13));
  for (const [key, text] of Object.entries(metadata))
    inside(model, 14, (entry) => {
      entry.writeStringField(1, key);
      entry.writeStringField(2, text);
    });
  return model.finish();
}

function inside(pbf: PbfWriter, field: number, write: (inner: PbfWriter) => void): void {
  pbf.writeMessage(field, (_, inner) => write(inner), null);
}

/** Kinds of attributes: 2 a whole number, 3 a text, 7 several whole numbers. */
function writeAttribute(attribute: PbfWriter, key: string, value: Attributes[string]): void {
  attribute.writeStringField(1, key);
  if (typeof value === 'number') attribute.writeVarintField(3, value);
  else if (typeof value === 'string') attribute.writeStringField(4, value);
  else for (const each of value) attribute.writeVarintField(8, each);
  attribute.writeVarintField(20, typeof value === 'number' ? 2 : typeof value === 'string' ? 3 : 7);
}

function writeValue(graph: PbfWriter, field: number, { name, type, shape }: Value): void {
  inside(graph, field, (value) => {
    value.writeStringField(1, name);
    inside(value, 2, (types) =>
      inside(types, 1, (tensor) => {
        tensor.writeVarintField(1, type);
        inside(tensor, 2, (dims) => {
          for (const size of shape)
            inside(dims, 1, (dim) =>
              typeof size === 'number' ? dim.writeVarintField(1, size) : dim.writeStringField(2, size),
            );
        });
      }),
    );
  });
}
