import type { StandBy } from './deck.ts';

/** Why a file is not shown. `connection` passes by itself; `server` and `file` need somebody to mend them. */
export interface MediaFailure {
  readonly why: 'connection' | 'server' | 'file';
  /** For the viewer, in one or two sentences. */
  readonly message: string;
}

/**
 * Tells a lost connection from a server that cannot send part of a file, and from a file that cannot be played.
 * A media element calls all three "not supported" when they happen before its first picture.
 */
export async function failureOf(
  { error, currentSrc }: HTMLVideoElement,
  how: Exclude<StandBy, 'ready' | 'overtaken'>,
): Promise<MediaFailure> {
  if (how === 'elsewhere')
    return {
      why: 'server',
      message:
        'The film is stopped: this server cannot jump to a place in a film, so the picture would not be the one of the step. ' +
        'The text is complete. Whoever runs this site finds what to do under “Publishing” in its documentation.',
    };
  if (error?.code === MediaError.MEDIA_ERR_NETWORK || !(await answers(currentSrc)))
    return { why: 'connection', message: 'Connection lost. Your place is kept; it goes on by itself.' };
  return { why: 'file', message: 'This film cannot be played here. The text is complete.' };
}

/** Any answer counts, also that there is no such file: only silence is a lost connection. */
async function answers(url: string): Promise<boolean> {
  if (!navigator.onLine) return false;
  // A page opened from a folder may not ask for files; there is no connection to lose.
  if (!url.startsWith('http')) return true;
  return fetch(url, { method: 'HEAD', cache: 'no-store' }).then(
    () => true,
    () => false,
  );
}
