/**
 * Whole numbers of at least 0 as text, most of them as one sign: five bits a sign, the lowest first, in the letters of
 * Base64 (RFC 4648, table 2), of which the second half says that more follow; as the VLQ of source maps (ECMA-426), but
 * without a sign bit.
 */
export function packNumbers(numbers: Iterable<number>): string {
  let text = '';
  for (const number of numbers) {
    let rest = number;
    do {
      const low = rest % 32;
      rest = Math.floor(rest / 32);
      text += LETTERS[low + (rest > 0 ? 32 : 0)];
    } while (rest > 0);
  }
  return text;
}

/** The numbers of such a text. */
export function unpackNumbers(text: string): Float64Array {
  const numbers = new Float64Array(text.length);
  let many = 0;
  let number = 0;
  let scale = 1;
  for (let i = 0; i < text.length; i++) {
    const value = VALUES[text.charCodeAt(i)] ?? 0;
    number += (value % 32) * scale;
    scale *= 32;
    if (value >= 32) continue;
    numbers[many++] = number;
    number = 0;
    scale = 1;
  }
  return numbers.subarray(0, many);
}

/** Ascending numbers, by how far each lies from the one before. */
export function packAscending(numbers: readonly number[] | Float64Array): string {
  return packNumbers(numbers.map((number, at) => number - (numbers[at - 1] ?? 0)));
}

export function unpackAscending(text: string): Float64Array {
  const numbers = unpackNumbers(text);
  for (let at = 1; at < numbers.length; at++) numbers[at] = (numbers[at] ?? 0) + (numbers[at - 1] ?? 0);
  return numbers;
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const VALUES = new Uint8Array(128);
for (let value = 0; value < LETTERS.length; value++) VALUES[LETTERS.charCodeAt(value)] = value;
