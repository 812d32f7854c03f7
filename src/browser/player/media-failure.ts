import { t } from '../page/words.ts';
import { CONNECTION_LOST } from './connection-lost.ts';

/** Why a file is not shown. `connection` passes by itself; `server` and `file` need somebody to mend them. */
export interface MediaFailure {
  readonly why: 'connection' | 'server' | 'file';
  /** For the viewer, in one or two sentences. */
  readonly message: string;
}

const SERVER: MediaFailure = {
  why: 'server',
  message: t(
    'The film is stopped: this server cannot jump to a place in a film, so the picture would not be the one of the step. The text is complete. If you run this site, its server has to answer byte ranges.',
  ),
};
const CONNECTION: MediaFailure = {
  why: 'connection',
  message: CONNECTION_LOST,
};
const FILE: MediaFailure = { why: 'file', message: t('This film cannot be played here. The text is complete.') };

/**
 * Why a media element has failed. It calls a lost connection, a server that cannot send part of a file, and a file
 * that cannot be played "not supported" alike when they happen before its first picture, so the server is asked.
 */
export async function failureOf({ error, currentSrc }: HTMLVideoElement): Promise<MediaFailure> {
  if (error?.code === MediaError.MEDIA_ERR_NETWORK) return CONNECTION;
  return (await hindrance(currentSrc)) ?? FILE;
}

/**
 * What keeps a picture from coming: a connection that is gone, or a server that does not know byte ranges
 * (RFC 9110, 14). Nothing when the server sends parts of the file: then it is only slow.
 */
export async function hindrance(url: string): Promise<MediaFailure | undefined> {
  // A page opened from a folder may not ask for files; there is no connection to lose.
  if (!url.startsWith('http')) return undefined;
  if (!navigator.onLine) return CONNECTION;
  const stop = new AbortController();
  const answer = await fetch(url, { headers: { range: 'bytes=0-0' }, cache: 'no-store', signal: stop.signal }).catch(
    () => undefined,
  );
  // A server without ranges would send the whole film.
  stop.abort();
  if (!answer || answer.status >= 500) return CONNECTION;
  return answer.status === 200 ? SERVER : undefined;
}

/** The picture came, and is of another moment than the one asked for. */
export const WRONG_PLACE = SERVER;
