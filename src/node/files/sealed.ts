import { createHmac, hash } from 'node:crypto';
import { closeSync, constants, openSync, readFileSync, writeFileSync } from 'node:fs';

/**
 * What a file holds that {@link writeSealed} has written; nothing where it is not there, cut short, or was written by
 * anybody else, or another program.
 *
 * @param program sum of this program, which nobody knows who has not this very copy of it
 */
export function readSealed(path: string, program: string): Buffer | undefined {
  try {
    const whole = readFileSync(path);
    const end = whole.indexOf('\n');
    const bytes = whole.subarray(end + 1);
    return whole.toString('latin1', 0, end) === seal(bytes, program) ? bytes : undefined;
  } catch {
    return undefined;
  }
}

/**
 * Writes a line with a seal, and bytes. Not by way of a file beside it: half a file has no seal. Through no link.
 *
 * @throws what the disk refuses
 */
export function writeSealed(path: string, bytes: Uint8Array, program: string): void {
  const { O_WRONLY, O_CREAT, O_TRUNC, O_NOFOLLOW } = constants;
  const file = openSync(path, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW);
  try {
    writeFileSync(file, sealed(bytes, program));
  } finally {
    closeSync(file);
  }
}

/** Bytes with the line before them that {@link readSealed} asks for. */
export function sealed(bytes: Uint8Array, program: string): Buffer {
  return Buffer.concat([Buffer.from(`${seal(bytes, program)}\n`), bytes]);
}

function seal(bytes: Uint8Array, program: string): string {
  // Of the sum, which is quickly made of many bytes at once.
  return createHmac('sha256', program).update(hash('sha256', bytes)).digest('base64url');
}
