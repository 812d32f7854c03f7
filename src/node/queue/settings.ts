import { randomBytes } from 'node:crypto';
import { OutsideFailure } from '../failure.ts';

/** Where jobs are told, by whose token, and where what they read and make lies. */
export interface QueueSettings {
  /** `redis://` or `rediss://`, with a password where there is one. */
  readonly address: string;
  readonly token: string;
  /** A folder, or `s3://bucket/prefix`. */
  readonly store: string;
}

type Env = Readonly<Record<string, string | undefined>>;

/** Shorter ones could be guessed, characters. */
const LEAST = 32;

/**
 * What `LIFTSIDE_QUEUE`, `LIFTSIDE_TOKEN` and `LIFTSIDE_STORE` say.
 *
 * @returns nothing where no queue is named: jobs are done by this process then
 * @throws OutsideFailure when one is named and something about it is missing or wrong
 */
export function queueSettings(env: Env): QueueSettings | undefined {
  const { LIFTSIDE_QUEUE: address = '', LIFTSIDE_TOKEN: token = '', LIFTSIDE_STORE: store = '' } = env;
  if (address === '') return undefined;
  if (!/^rediss?:$/.test(URL.parse(address)?.protocol ?? ''))
    throw wrong(
      'LIFTSIDE_QUEUE is no address of a Redis',
      'write redis://host:6379, or rediss:// for an encrypted one',
    );
  if (token.length < LEAST)
    throw wrong(
      `LIFTSIDE_TOKEN is ${token === '' ? 'not set' : `shorter than ${LEAST} characters`}: workers take no job without the shop's token`,
      'liftside jobs token prints one; set the same on every machine',
    );
  if (store === '')
    throw wrong(
      'LIFTSIDE_STORE is not set: workers need a place for footage and results',
      'name a folder that every machine sees, or s3://bucket/prefix',
    );
  return { address, token, store };
}

/** The same, where nothing can be done without. @throws OutsideFailure when no queue is named */
export function neededSettings(env: Env): QueueSettings {
  const settings = queueSettings(env);
  if (settings) return settings;
  throw wrong('LIFTSIDE_QUEUE is not set', 'name the Redis that holds the jobs: LIFTSIDE_QUEUE=redis://host:6379');
}

/** A token that nobody guesses: 256 random bits. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}

/** An address as it may be shown: without user and password. */
export function shownAddress(address: string): string {
  const url = new URL(address);
  return `${url.protocol}//${url.host}${url.pathname === '/' ? '' : url.pathname}`;
}

function wrong(message: string, help: string): OutsideFailure {
  return new OutsideFailure(message, help, true);
}
