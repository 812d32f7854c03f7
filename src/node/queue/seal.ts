import { createHmac, hash, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import { OutsideFailure } from '../failure.ts';

const sealed = z.strictObject({ text: z.string().max(16 << 20), seal: z.string().regex(/^[0-9a-f]{64}$/) });

/** Plain data and a sum over it that only holders of the token can make (HMAC, RFC 2104, with SHA-256). */
export type Sealed = z.infer<typeof sealed>;

/** @param id of the job that it belongs to: elsewhere the seal does not hold */
export function seal(value: unknown, id: string, token: string): Sealed {
  const text = JSON.stringify(value);
  return { text, seal: sumOf(text, id, token) };
}

/**
 * What was sealed, once it is known to come from a holder of the token and to have the right shape.
 *
 * @throws OutsideFailure when it is not
 */
export function openSealed<T>(raw: unknown, shape: z.ZodType<T>, id: string, token: string): T {
  const read = sealed.safeParse(raw);
  const { text, seal: told } = read.success ? read.data : { text: '', seal: '' };
  if (!read.success || !timingSafeEqual(Buffer.from(told), Buffer.from(sumOf(text, id, token))))
    throw new OutsideFailure(
      `the job ${id} does not bear the shop's token`,
      'whoever put it there has another token, or none: liftside jobs drop takes it out',
    );
  const value = shape.safeParse(JSON.parse(text));
  if (value.success) return value.data;
  throw new OutsideFailure(
    `the job ${id} is of a shape that this worker does not know`,
    'bring Liftside to the same version on every machine',
  );
}

/** A short name for a text, which tells nothing about it. */
export function nameOf(text: string): string {
  return hash('sha256', `liftside queue ${text}`).slice(0, 12);
}

function sumOf(text: string, id: string, token: string): string {
  return createHmac('sha256', token).update(id).update('\n').update(text).digest('hex');
}
