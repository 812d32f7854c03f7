/** What the cutting room said no to. */
export class Refused extends Error {
  readonly status: number;

  constructor(status: number, problem: string) {
    super(problem);
    this.name = 'Refused';
    this.status = status;
  }

  /** Asking again the same way will not help. */
  get forGood(): boolean {
    return this.status < 500;
  }
}

/**
 * Asks the shoot log's server.
 *
 * @throws Refused when it says no
 * @throws TypeError when nobody answers
 */
export async function ask<T>(phone: string | undefined, path: string, body?: unknown): Promise<T> {
  const headers: Record<string, string> = { 'x-liftside-phone': phone ?? '' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  const answer = await fetch(path, {
    method: body === undefined ? 'GET' : 'POST',
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  const value: { problem?: string } = await answer.json();
  if (!answer.ok) throw new Refused(answer.status, value.problem ?? 'the cutting room said no');
  return value as T;
}
