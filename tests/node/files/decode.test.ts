import { expect, test } from 'vitest';
import { decodeText } from '../../../src/node/files/decode.ts';

const TEXT = 'WEBVTT\n\n00:01.000 --> 00:02.000\n“Größe” – 81 N·m €\n';
const utf16 = (text: string, big: boolean) => {
  const bytes = Buffer.from(text, 'utf16le');
  return big ? bytes.swap16() : bytes;
};
/** Windows-1252 of the signs above, from the WHATWG Encoding Standard's index. */
const CP1252: Readonly<Record<string, number>> = { '“': 0x93, '”': 0x94, '–': 0x96, '€': 0x80 };
const windows = Uint8Array.from(TEXT, (sign) => CP1252[sign] ?? sign.charCodeAt(0));

test.each([
  ['utf-8', Buffer.from(TEXT)],
  ['utf-8', Buffer.from(`\uFEFF${TEXT}`)],
  ['utf-16le', utf16(`\uFEFF${TEXT}`, false)],
  ['utf-16be', utf16(`\uFEFF${TEXT}`, true)],
  ['utf-16le', utf16(TEXT, false)],
  ['utf-16be', utf16(TEXT, true)],
  ['windows-1252', windows],
] as const)('%s is read as what it says', (encoding, bytes) => {
  expect(decodeText(bytes)).toEqual({ encoding, text: TEXT });
});

test('nothing, one byte and an odd number of bytes are texts too', () => {
  expect(decodeText(new Uint8Array()).text).toBe('');
  expect(decodeText(Uint8Array.of(0x41)).text).toBe('A');
  expect(decodeText(Buffer.concat([utf16('Hello there', false), Buffer.of(0x21)])).encoding).toBe('utf-16le');
});
