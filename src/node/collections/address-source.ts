import type { IncomingMessage } from 'node:http';
import { get } from 'node:https';
import { encodePath } from '../../core/model/index.ts';
import { firstLine } from '../../core/read/index.ts';
import { OutsideFailure } from '../failure.ts';
import type { PackageFiles } from '../pack/index.ts';
import type { Fetching } from './use.ts';

/** A server that says nothing for so long is given up, ms. */
const PATIENCE = 30_000;

/**
 * A collection below an https address. Its certificate has to be good; a redirection is not followed, since it would be
 * another place than the one that was written. Nothing is asked for but the files that are read.
 */
export function openAddress(address: string, { signal }: Pick<Fetching, 'signal'>): PackageFiles {
  const base = address.endsWith('/') ? address : `${address}/`;
  return {
    // What there is, only the signed list says.
    sizes: new Map(),
    read: (path) => fetchFile(new URL(encodePath(path), base), signal),
    close: async () => undefined,
  };
}

async function fetchFile(url: URL, signal: AbortSignal): Promise<IncomingMessage> {
  const answer = await ask(url, signal).catch((error: unknown) => {
    signal.throwIfAborted();
    throw new OutsideFailure(
      `${url.href} cannot be fetched: ${firstLine(error instanceof Error ? error.message : String(error))}`,
      'what is in use stays; try again when there is a network',
    );
  });
  const { statusCode: code = 0, headers } = answer;
  if (code === 200) return answer;
  answer.destroy();
  const elsewhere = code >= 300 && code < 400 ? `; it leads to ${headers.location ?? 'nowhere'}` : '';
  throw new OutsideFailure(
    `${url.href} cannot be fetched: the server answers ${code}${elsewhere}`,
    elsewhere ? 'write the address that it leads to, if you trust it' : 'correct the address in collections.yaml',
  );
}

function ask(url: URL, signal: AbortSignal): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    const request = get(url, { signal, timeout: PATIENCE, headers: { 'accept-encoding': 'identity' } }, resolve);
    request.on('timeout', () => request.destroy(new Error(`it has said nothing for ${PATIENCE / 1000} s`)));
    request.on('error', reject);
  });
}
