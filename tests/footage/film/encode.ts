import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { HEIGHT, WIDTH } from './geometry.ts';

interface Job {
  readonly file: string;
  /** Timecode of the first frame. */
  readonly timecode: string;
  /** Mono, 16 kHz. */
  readonly sound: string;
  readonly frames: number;
  /** Writes frame `i` of the file into the buffer. */
  readonly draw: (buffer: Uint8Array, i: number) => void;
  readonly progress: (done: number) => void;
}

/**
 * Pipes frames into ffmpeg: H.264 in groups of 300 pictures, key frames by count and not by content, no reordering;
 * AAC beside it; the index in front. Sixteen reference pictures let the last digit of the clock be copied from ten
 * frames before.
 */
export async function encode({ file, timecode, sound, frames, draw, progress }: Job): Promise<void> {
  const video = ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '31', '-bf', '0', '-refs', '16'];
  const groups = [
    '-g',
    '300',
    '-keyint_min',
    '300',
    '-sc_threshold',
    '0',
    '-x264-params',
    'no-psy=1:aq-mode=0:rc-lookahead=20',
  ];
  const colour = [
    '-colorspace',
    'smpte170m',
    '-color_primaries',
    'smpte170m',
    '-color_trc',
    'smpte170m',
    '-color_range',
    'tv',
  ];
  const audio = ['-c:a', 'aac', '-b:a', '16k', '-ar', '16000', '-ac', '1'];
  const box = [
    '-timecode',
    timecode,
    '-video_track_timescale',
    '30000',
    '-movflags',
    '+faststart',
    '-fflags',
    '+bitexact',
    '-map_metadata',
    '-1',
  ];
  const raw = ['-f', 'rawvideo', '-pix_fmt', 'yuv420p', '-s', `${WIDTH}x${HEIGHT}`, '-r', '30000/1001', '-i', 'pipe:0'];
  const wav = ['-f', 's16le', '-ar', '16000', '-ac', '1', '-i', sound];
  const args = [
    '-v',
    'error',
    '-y',
    ...raw,
    ...wav,
    '-map',
    '0:v',
    '-map',
    '1:a',
    ...video,
    ...groups,
    ...colour,
    ...audio,
    ...box,
    file,
  ];
  const ffmpeg = spawn('ffmpeg', args, { stdio: ['pipe', 'inherit', 'inherit'] });
  const ended = once(ffmpeg, 'close');
  const size = (WIDTH * HEIGHT * 3) / 2;
  for (let i = 0; i < frames; i++) {
    const buffer = new Uint8Array(size);
    draw(buffer, i);
    if (!ffmpeg.stdin.write(buffer)) await Promise.race([once(ffmpeg.stdin, 'drain'), ended]);
    if (i % 3000 === 2999) progress(i + 1);
  }
  ffmpeg.stdin.end();
  const [code] = await ended;
  if (code !== 0) throw new Error(`ffmpeg ended with ${code}`);
}
