/** Digits of the sum that are compared: 128 bits, which nobody finds a second key for. */
const COMPARED = 32;

/** What the fingerprint of an Ed25519 key is the SHA-256 of: its thumbprint by RFC 7638 and RFC 8037. @param x public key, base64url */
export function thumbprintText(x: string): string {
  return JSON.stringify({ crv: 'Ed25519', kty: 'OKP', x });
}

/** A key as people compare it by phone: eight groups of four. @param sum SHA-256 of {@link thumbprintText}, hexadecimal */
export function fingerprint(sum: string): string {
  return sum.slice(0, COMPARED).replaceAll(/.{4}(?=.)/g, '$& ');
}

/** True for two fingerprints of one key, however they are grouped. */
export function sameFingerprint(a: string, b: string): boolean {
  const plain = (text: string) => text.replaceAll(/[^0-9a-f]/gi, '').toLowerCase();
  return plain(a) === plain(b);
}
