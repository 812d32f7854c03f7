import { hash } from 'node:crypto';

/** A URN for what has no address, the same for the same text: RFC 9562, version 8. */
export function uuidOf(text: string): string {
  const sum = hash('sha256', text);
  return `urn:uuid:${sum.slice(0, 8)}-${sum.slice(8, 12)}-8${sum.slice(13, 16)}-a${sum.slice(17, 20)}-${sum.slice(20, 32)}`;
}
