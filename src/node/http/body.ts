import type { IncomingMessage } from 'node:http';

/** Longest body taken, bytes: many times the longest lesson. */
export const BODY_LIMIT = 4 * 1024 * 1024;

/** How much of a body that is not taken is still read, bytes, and for how long, ms. */
const READ_OFF = 64 * 1024 * 1024;
const READ_OFF_MS = 10_000;

/** Why a body is not taken. */
export interface BodyRefusal {
  readonly status: 413 | 415;
  readonly problem: string;
}

/**
 * The JSON a request carries.
 *
 * A body that is too long is read off and thrown away before it is refused: most clients look for the answer only when
 * they have sent everything, and a connection closed before that reads to them as a broken network.
 *
 * @param limit bytes
 * @returns the value, or why it is not taken
 */
export async function jsonBody(
  request: IncomingMessage,
  limit = BODY_LIMIT,
): Promise<{ value: unknown } | BodyRefusal> {
  const type = request.headers['content-type'] ?? '';
  const chunks: Buffer[] = [];
  const until = performance.now() + READ_OFF_MS;
  let size = 0;
  for await (const chunk of request) {
    const bytes = Buffer.from(chunk as Uint8Array);
    size += bytes.length;
    if (size <= limit) chunks.push(bytes);
    else if (size > READ_OFF || performance.now() > until) break;
  }
  if (size > limit) return { status: 413, problem: `more than ${sizeInWords(limit)} is not taken` };
  if (!/^application\/json\b/i.test(type)) return { status: 415, problem: 'only JSON is taken here' };
  try {
    return { value: JSON.parse(Buffer.concat(chunks).toString('utf8')) };
  } catch {
    return { status: 415, problem: 'the JSON cannot be read' };
  }
}

function sizeInWords(bytes: number): string {
  return bytes >= 1024 * 1024 ? `${bytes / 1024 / 1024} MB` : `${Math.ceil(bytes / 1024)} kB`;
}
