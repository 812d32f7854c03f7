import { type FileHandle, open } from 'node:fs/promises';

/** Fields of an ONNX model. Source: onnx.proto3 of ONNX, message ModelProto and StringStringEntryProto. */
const METADATA = 14;
const [KEY, VALUE] = [1, 2];
/** A list of metadata longer than this says something else than what a model is, bytes. */
const MOST = 1 << 20;
/** A field's head is no longer, bytes: two numbers of at most ten each. */
const HEAD = 20;

/**
 * What a network says it is: `model_type` among its metadata. The weights, which may take gigabytes, are passed over.
 *
 * @returns nothing where it says nothing, or is no ONNX file
 */
export async function modelTypeOf(path: string): Promise<string | undefined> {
  const file = await open(path, 'r').catch(() => undefined);
  if (!file) return undefined;
  try {
    const { size } = await file.stat();
    for (let at = 0; at < size; ) {
      const field = await fieldAt(file, at);
      if (!field) return undefined;
      if (field.number === METADATA && field.length <= MOST) {
        const entry = Buffer.alloc(field.length);
        await file.read(entry, 0, field.length, field.from);
        const [key, value] = readEntry(entry);
        if (key === 'model_type') return value;
      }
      at = field.from + field.length;
    }
    return undefined;
  } finally {
    await file.close();
  }
}

interface Field {
  readonly number: number;
  /** Offset of what it holds, and its length, bytes. */
  readonly from: number;
  readonly length: number;
}

async function fieldAt(file: FileHandle, at: number): Promise<Field | undefined> {
  const head = Buffer.alloc(HEAD);
  const { bytesRead } = await file.read(head, 0, HEAD, at);
  const field = readField(head.subarray(0, bytesRead));
  return field && { ...field, from: at + field.from };
}

/** Source: encoding of Protocol Buffers, wire types 0, 1, 2 and 5. */
function readField(bytes: Uint8Array): Field | undefined {
  const [tag, after] = readNumber(bytes, 0);
  const [number, wire] = [Math.floor(tag / 8), tag % 8];
  if (number < 1) return undefined;
  if (wire === 0) return { number, from: after, length: readNumber(bytes, after)[1] - after };
  if (wire === 1) return { number, from: after, length: 8 };
  if (wire === 5) return { number, from: after, length: 4 };
  if (wire !== 2) return undefined;
  const [length, from] = readNumber(bytes, after);
  return { number, from, length };
}

function readNumber(bytes: Uint8Array, at: number): [value: number, after: number] {
  let value = 0;
  for (let i = at, power = 1; i < bytes.length; i++, power *= 128) {
    const byte = bytes[i] ?? 0;
    value += (byte & 127) * power;
    if (byte < 128) return [value, i + 1];
  }
  return [value, bytes.length];
}

function readEntry(bytes: Buffer): [key: string, value: string] {
  const texts = new Map<number, string>();
  for (let at = 0; at < bytes.length; ) {
    const field = readField(bytes.subarray(at));
    if (!field) break;
    texts.set(field.number, bytes.toString('utf8', at + field.from, at + field.from + field.length));
    at += field.from + field.length;
  }
  return [texts.get(KEY) ?? '', texts.get(VALUE) ?? ''];
}
