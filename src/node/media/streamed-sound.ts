/** Sound of several parts as one, in memory of its own. */
export function joinSamples(parts: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const whole = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/**
 * 32-bit floats out of parts of any size, so many at a time; the last may be fewer.
 *
 * @param parts bytes, low end first, in order; a number may lie across two of them
 */
export async function* inWindows(
  parts: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  size: number,
): AsyncGenerator<Float32Array> {
  let window = new Uint8Array(size * 4);
  let filled = 0;
  for await (const part of parts)
    for (let at = 0; at < part.length; ) {
      const taken = part.subarray(at, at + window.length - filled);
      window.set(taken, filled);
      filled += taken.length;
      at += taken.length;
      if (filled < window.length) continue;
      yield new Float32Array(window.buffer);
      window = new Uint8Array(size * 4);
      filled = 0;
    }
  if (filled >= 4) yield new Float32Array(window.buffer, 0, Math.floor(filled / 4));
}
