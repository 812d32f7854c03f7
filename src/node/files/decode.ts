/** A text and how its bytes said it. */
export interface Decoded {
  readonly text: string;
  readonly encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
}

/**
 * Bytes as text, in whatever encoding a camera or caption service wrote them; a byte order mark is left out.
 *
 * By the mark where there is one; else UTF-16 where every other byte is zero, as in Latin text; else UTF-8 where all
 * of it is sound UTF-8; else Windows-1252, in which every byte means something.
 * Source: WHATWG Encoding Standard for the decoders and the marks; the order of guesses is common practice.
 */
export function decodeText(bytes: Uint8Array): Decoded {
  const encoding = encodingOf(bytes);
  return { encoding, text: new TextDecoder(encoding).decode(bytes) };
}

function encodingOf(bytes: Uint8Array): Decoded['encoding'] {
  const [a, b, c] = bytes;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  return wideEncoding(bytes) ?? (isUtf8(bytes) ? 'utf-8' : 'windows-1252');
}

/** Looks at the first bytes only: Latin text in UTF-16 has a zero in nearly every pair, on one side. */
function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  const looked = Math.min(bytes.length - (bytes.length % 2), 512);
  let first = 0;
  let second = 0;
  for (let i = 0; i < looked; i += 2) {
    if (bytes[i] === 0) first++;
    if (bytes[i + 1] === 0) second++;
  }
  const most = looked / 2;
  if (most < 2) return undefined;
  if (second > most * 0.6 && first < most * 0.1) return 'utf-16le';
  if (first > most * 0.6 && second < most * 0.1) return 'utf-16be';
  return undefined;
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}
