/** Parameter sets of an H.264 track: what a decoder has to know before the first picture. */
export interface ParameterSets {
  readonly sequence: readonly Uint8Array[];
  readonly picture: readonly Uint8Array[];
  /** Bytes of the length in front of each unit. */
  readonly lengthSize: number;
}

/**
 * Reads an AVC decoder configuration record.
 *
 * @returns nothing when it is not one
 * Source: ISO/IEC 14496-15, 5.3.3.1.
 */
export function readConfiguration(record: Uint8Array): ParameterSets | undefined {
  if (record[0] !== 1 || record.length < 7) return undefined;
  const lengthSize = ((record[4] ?? 0) & 3) + 1;
  let at = 6;
  const read = (count: number): Uint8Array[] => {
    const sets: Uint8Array[] = [];
    for (let i = 0; i < count; i++) {
      const length = ((record[at] ?? 0) << 8) | (record[at + 1] ?? 0);
      sets.push(record.slice(at + 2, at + 2 + length));
      at += 2 + length;
    }
    return sets;
  };
  const sequence = read((record[5] ?? 0) & 31);
  const pictures = record[at] ?? 0;
  at += 1;
  return { sequence, picture: read(pictures), lengthSize };
}

/** Profiles whose record also tells chroma and bit depth (ISO/IEC 14496-15, 5.3.3.1.2). */
const HIGH_PROFILES = new Set([100, 110, 122, 144]);

/**
 * Writes an AVC decoder configuration record for 8-bit 4:2:0 pictures, with the highest profile and level among the
 * sets, so that one track can hold pictures of several encoders.
 *
 * @throws RangeError when two different sets bear one number, or there is none
 */
export function writeConfiguration(sets: ParameterSets): Uint8Array {
  const sequence = distinct(sets.sequence, sequenceNumber);
  const picture = distinct(sets.picture, pictureNumber);
  const [first] = sequence;
  if (!first) throw new RangeError('a track needs a sequence parameter set');
  const highest = (byte: number) => Math.max(...sequence.map((set) => set[byte] ?? 0));
  const compatible = sequence.reduce((all, set) => all & (set[2] ?? 0), 0xff);
  const profile = highest(1);
  const body = [1, profile, compatible, highest(3), 0xfc | (sets.lengthSize - 1), 0xe0 | sequence.length];
  for (const set of sequence) body.push(set.length >> 8, set.length & 0xff, ...set);
  body.push(picture.length);
  for (const set of picture) body.push(set.length >> 8, set.length & 0xff, ...set);
  if (HIGH_PROFILES.has(profile)) body.push(0xfc | 1, 0xf8, 0xf8, 0);
  return Uint8Array.from(body);
}

function distinct(sets: readonly Uint8Array[], numberOf: (set: Uint8Array) => number): Uint8Array[] {
  const byNumber = new Map<number, Uint8Array>();
  for (const set of sets) {
    const known = byNumber.get(numberOf(set));
    if (known && !same(known, set))
      throw new RangeError(`two parameter sets that differ have the number ${numberOf(set)}`);
    byNumber.set(numberOf(set), set);
  }
  return [...byNumber.values()];
}

export function same(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}

/** `seq_parameter_set_id`: comes after profile, constraints and level (ISO/IEC 14496-10, 7.3.2.1.1). */
export function sequenceNumber(set: Uint8Array): number {
  return expGolomb(set, 4 * 8).value;
}

/** `pic_parameter_set_id`: the first value (ISO/IEC 14496-10, 7.3.2.2). */
export function pictureNumber(set: Uint8Array): number {
  return expGolomb(set, 8).value;
}

/** An unsigned Exp-Golomb number (ISO/IEC 14496-10, 9.1) at a bit position. */
function expGolomb(bytes: Uint8Array, from: number): { value: number; next: number } {
  const bit = (at: number) => ((bytes[at >> 3] ?? 0x80) >> (7 - (at & 7))) & 1;
  let zeros = 0;
  while (bit(from + zeros) === 0 && zeros < 32) zeros++;
  let value = 1;
  for (let i = 1; i <= zeros; i++) value = value * 2 + bit(from + zeros + i);
  return { value: value - 1, next: from + 2 * zeros + 1 };
}

/**
 * True when a coded picture can be decoded without anything before it: it holds a slice of an instantaneous decoding
 * refresh picture (`nal_unit_type` 5; ISO/IEC 14496-10, 7.4.1).
 *
 * @param sample units, each after its length
 */
export function startsAfresh(sample: Uint8Array, lengthSize: number): boolean {
  for (let at = 0; at + lengthSize < sample.length; ) {
    let length = 0;
    for (let i = 0; i < lengthSize; i++) length = length * 256 + (sample[at + i] ?? 0);
    const type = (sample[at + lengthSize] ?? 0) & 31;
    if (type === 5) return true;
    if (type >= 1 && type <= 4) return false;
    at += lengthSize + length;
  }
  return false;
}

/** A number from 0 to 31 that none of the sets bears; 31 where all are taken. */
export function freeNumber(taken: ReadonlySet<number>): number {
  for (let number = 1; number < 31; number++) if (!taken.has(number)) return number;
  return 31;
}
