import { ExecaError, execa } from 'execa';
import { cameraInput } from '../../core/media/index.ts';
import { OutsideFailure } from '../failure.ts';
import type { Tools } from './tools.ts';

export interface Watch {
  readonly signal?: AbortSignal;
  /** Told now and then how far the output has come, s. */
  readonly onSeconds?: (seconds: number) => void;
  /** Folder the process works in. */
  readonly cwd?: string;
}

/**
 * Runs ffmpeg to its end.
 *
 * @throws OutsideFailure with ffmpeg's own words when it fails; the signal's reason when it was stopped
 */
export async function runFfmpeg(tools: Tools, args: readonly string[], watch: Watch = {}): Promise<void> {
  watch.signal?.throwIfAborted();
  const running = execa(
    tools.ffmpeg,
    ['-hide_banner', '-nostdin', '-v', 'error', '-nostats', '-progress', 'pipe:1', '-y', ...args],
    {
      stdin: 'ignore',
      buffer: { stdout: false, stderr: true },
      forceKillAfterDelay: 3000,
      ...(watch.signal && { cancelSignal: watch.signal }),
      ...(watch.cwd !== undefined && { cwd: watch.cwd }),
    },
  );
  try {
    for await (const line of running.iterable()) {
      const done = /^out_time_us=(\d+)/.exec(String(line))?.[1];
      if (done !== undefined) watch.onSeconds?.(Number(done) / 1e6);
    }
    const { stderr } = await running;
    // Some of its writers only remark that the disk took no more, and end as if all were well.
    if (NO_ROOM.test(stderr)) throw noRoom(tools, lastWords(stderr));
  } catch (error) {
    watch.signal?.throwIfAborted();
    throw inWords(error, tools);
  }
}

/**
 * Runs ffmpeg and hands on what it writes to its standard output, part by part, as fast as it is taken.
 *
 * @throws as `runFfmpeg` does, once all parts were taken
 */
export async function* streamFfmpeg(
  tools: Tools,
  args: readonly string[],
  { signal }: Pick<Watch, 'signal'> = {},
): AsyncGenerator<Uint8Array> {
  signal?.throwIfAborted();
  const running = execa(tools.ffmpeg, ['-hide_banner', '-nostdin', '-v', 'error', ...args], {
    stdin: 'ignore',
    encoding: 'buffer',
    buffer: { stdout: false, stderr: true },
    forceKillAfterDelay: 3000,
    ...(signal && { cancelSignal: signal }),
  });
  try {
    for await (const part of running.iterable({ binary: true })) yield part;
    await running;
  } catch (error) {
    signal?.throwIfAborted();
    throw inWords(error, tools);
  }
}

/**
 * Runs ffprobe on a media file and reads its JSON.
 *
 * @param asked what to show
 * @throws OutsideFailure when it fails
 */
export async function runFfprobe(
  tools: Tools,
  asked: readonly string[],
  path: string,
  signal?: AbortSignal,
): Promise<unknown> {
  try {
    const { stdout } = await execa(tools.ffprobe, ['-v', 'error', '-of', 'json', ...asked, ...cameraInput(path)], {
      stdin: 'ignore',
      maxBuffer: 1 << 29,
      ...(signal && { cancelSignal: signal }),
    });
    return JSON.parse(stdout);
  } catch (error) {
    signal?.throwIfAborted();
    throw inWords(error, tools);
  }
}

/** What it says where the disk, a quota or a limit takes no more. */
const NO_ROOM = /No space left on device|Disk quota exceeded|File too large|Error writing trailer/;

function inWords(error: unknown, tools: Tools): Error {
  if (!(error instanceof ExecaError)) return error instanceof Error ? error : new Error(String(error));
  const written: unknown = error.stderr;
  const words = lastWords(written instanceof Uint8Array ? Buffer.from(written).toString() : String(written ?? ''));
  if (error.signal === 'SIGXFSZ' || NO_ROOM.test(words)) return noRoom(tools, words);
  const ended = error.signal ? `the system stopped it with ${error.signal}` : `it ended with code ${error.exitCode}`;
  return new OutsideFailure(
    `ffmpeg ${tools.version} failed: ${words || ended}`,
    error.signal
      ? 'it may have run out of memory: close other programs, then run it again; what is done is kept'
      : 'see what it says about the file',
  );
}

function noRoom(tools: Tools, words: string): OutsideFailure {
  return new OutsideFailure(
    `ffmpeg ${tools.version} could not write on: the disk is full, or a file may not grow further${words ? ` (${words})` : ''}`,
    'free some space on the disk, then run it again: what is done is kept',
  );
}

function lastWords(stderr: string): string {
  return stderr.trim().split('\n').slice(-3).join(' · ');
}
