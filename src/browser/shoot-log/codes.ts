import type { Tap } from './taps.ts';

/** What a code begins with; the number is raised when the rest is written in another way. */
const MARK = 'liftside-taps-1:';
/** Characters of a code that an older phone's camera still reads from a screen. */
const MOST = 700;

async function through(
  bytes: Uint8Array<ArrayBuffer>,
  by: CompressionStream | DecompressionStream,
): Promise<Uint8Array> {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(by)).arrayBuffer());
}

async function written(taps: readonly Tap[]): Promise<string> {
  const bytes = await through(new TextEncoder().encode(JSON.stringify(taps)), new CompressionStream('deflate-raw'));
  return MARK + btoa(String.fromCharCode(...bytes));
}

/**
 * Taps as texts for QR codes. Each code holds whole taps: any of them may be read in any order, twice or not at all,
 * and what was read is right.
 */
export async function codesOf(taps: readonly Tap[]): Promise<string[]> {
  if (taps.length === 0) return [];
  const whole = await written(taps);
  if (whole.length <= MOST || taps.length === 1) return [whole];
  const half = Math.ceil(taps.length / 2);
  return [...(await codesOf(taps.slice(0, half))), ...(await codesOf(taps.slice(half)))];
}

/** @returns the taps of a code; nothing where it is none of ours */
export async function tapsOfCode(text: string): Promise<Tap[] | undefined> {
  if (!text.startsWith(MARK)) return undefined;
  try {
    const bytes = Uint8Array.from(atob(text.slice(MARK.length)), (sign) => sign.charCodeAt(0));
    return tapsOfJson(new TextDecoder().decode(await through(bytes, new DecompressionStream('deflate-raw'))));
  } catch {
    return undefined;
  }
}

/** Taps as a file holds them. @returns nothing where it holds none */
export function tapsOfJson(text: string): Tap[] | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return Array.isArray(value) && value.every(isTap) ? value : undefined;
  } catch {
    return undefined;
  }
}

function isTap(value: unknown): value is Tap {
  return (
    typeof value === 'object' &&
    value !== null &&
    'id' in value &&
    typeof value.id === 'string' &&
    'lesson' in value &&
    typeof value.lesson === 'string' &&
    'at' in value &&
    typeof value.at === 'number' &&
    'kind' in value
  );
}
