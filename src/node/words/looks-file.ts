/** Looks of several parts as one file: how many numbers each part has, then all numbers, 32-bit, low end first. */
export function writeLooks(parts: readonly Float32Array[]): Uint8Array {
  const head = Uint32Array.from([parts.length, ...parts.map(({ length }) => length)]);
  return Buffer.concat(
    [head, ...parts].map(({ buffer, byteOffset, byteLength }) => Buffer.from(buffer, byteOffset, byteLength)),
  );
}

export function readLooks(bytes: Uint8Array): Float32Array[] {
  const whole = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
  const [count = 0] = new Uint32Array(whole, 0, 1);
  const lengths = new Uint32Array(whole, 4, count);
  let at = 4 * (count + 1);
  return Array.from(lengths, (length) => {
    const part = new Float32Array(whole, at, length);
    at += 4 * length;
    return part;
  });
}
