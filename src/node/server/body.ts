import type { IncomingMessage } from 'node:http';
import type { Refusal } from './guard.ts';

/** Longest body taken, bytes: many times the longest lesson. */
export const BODY_LIMIT = 4 * 1024 * 1024;

/**
 * The JSON a request carries.
 *
 * @returns the value, or why it is not taken; a body that is too long is not read to its end
 */
export async function jsonBody(request: IncomingMessage, limit = BODY_LIMIT): Promise<{ value: unknown } | Refusal> {
  const type = request.headers['content-type'] ?? '';
  if (!/^application\/json\b/i.test(type)) return { status: 415, problem: 'only JSON is taken here' };
  const tooLong: Refusal = { status: 413, problem: `more than ${limit / 1024 / 1024} MB is not taken` };
  if (Number(request.headers['content-length'] ?? 0) > limit) return tooLong;
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request) {
    const bytes = Buffer.from(chunk as Uint8Array);
    size += bytes.length;
    if (size > limit) return tooLong;
    chunks.push(bytes);
  }
  try {
    return { value: JSON.parse(Buffer.concat(chunks).toString('utf8')) };
  } catch {
    return { status: 415, problem: 'the JSON cannot be read' };
  }
}
