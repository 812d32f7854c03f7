// `crypto.randomUUID` is missing outside a secure context.
const randomBytes = (count: number) => crypto.getRandomValues(new Uint8Array(count));
const hexOf = (bytes: Uint8Array) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

/** An id that nothing else has. */
export function newId(): string {
  return hexOf(randomBytes(12));
}

/** A UUID made by chance (RFC 9562, version 4). */
export function newUuid(): string {
  const bytes = randomBytes(16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  return hexOf(bytes).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}
