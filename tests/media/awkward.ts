import { copyFile, open, readFile, stat, truncate, writeFile } from 'node:fs/promises';
import { ffmpeg } from './make.ts';

/** A kind of file that cameras, phones and people bring, and what has to come of it. */
export interface Awkward {
  /** As a sentence. */
  readonly name: string;
  /** Camera files of the recording, in order; made in the media folder. */
  readonly files: readonly string[];
  make(path: (name: string) => string): Promise<void>;
  readonly expect: {
    /** Length of the recording, s; nothing where that is not known beforehand or it cannot be rendered. */
    readonly seconds?: number;
    readonly atLeast?: number;
    readonly width?: number;
    readonly height?: number;
    readonly sound?: boolean;
    /** A word in what is told before or after. */
    readonly told?: RegExp;
  };
}

const picture = (seconds: number, size = '320x180', rate = '25') => [
  ...['-f', 'lavfi', '-i', `testsrc2=s=${size}:r=${rate}:d=${seconds}`],
];
const noise = (seconds: number) => ['-f', 'lavfi', '-i', `anoisesrc=c=pink:r=48000:a=0.3:d=${seconds}`];
const fast = ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '25', '-c:a', 'aac'];

export const AWKWARD: readonly Awkward[] = [
  {
    name: 'several files as one recording, split by the camera',
    files: ['a-1.mp4', 'a-2.mp4', 'a-3.mp4'],
    async make(path) {
      for (const n of [1, 2, 3]) await ffmpeg(...picture(4), ...noise(4), ...fast, path(`a-${n}.mp4`));
    },
    expect: { seconds: 12, width: 320, height: 180, sound: true },
  },
  {
    name: 'split by the camera, its clock going on in the second file',
    files: ['clock-1.mp4', 'clock-2.mp4'],
    async make(path) {
      await ffmpeg(...picture(5), ...noise(5), ...fast, path('clock-1.mp4'));
      await ffmpeg(...picture(5), ...noise(5), ...fast, '-output_ts_offset', '5', path('clock-2.mp4'));
    },
    expect: { seconds: 10, width: 320, height: 180, sound: true },
  },
  {
    name: 'a transport stream split at the byte, in the middle of a picture, as cameras do at 4 GB',
    files: ['00001.MTS', '00002.MTS'],
    async make(path) {
      await ffmpeg(...picture(12), ...noise(12), ...fast, '-f', 'mpegts', path('whole.ts'));
      const bytes = await readFile(path('whole.ts'));
      const middle = Math.floor(bytes.length / 2 / 188) * 188;
      await writeFile(path('00001.MTS'), bytes.subarray(0, middle));
      await writeFile(path('00002.MTS'), bytes.subarray(middle));
    },
    // Less than a group of pictures is lost where the second file begins.
    expect: { atLeast: 10.8, width: 320, height: 180, sound: true, told: /00002\.MTS begins in the middle/ },
  },
  {
    name: 'an MP4 file over 4 GB, its index at the end',
    files: ['large.mp4'],
    async make(path) {
      await ffmpeg(...picture(6), ...noise(6), ...fast, path('small.mp4'));
      const bytes = await readFile(path('small.mp4'));
      const [data, index] = [bytes.indexOf('mdat') - 4, bytes.lastIndexOf('moov') - 4];
      // The free box before it leaves room for a size of 64 bits (ISO/IEC 14496-12, 4.2); the rest of the data is a hole.
      const head = Buffer.from(bytes.subarray(0, index));
      const end = 4.5e9;
      head.writeUInt32BE(1, data - 8);
      head.write('mdat', data - 4);
      head.writeBigUInt64BE(BigInt(end - (data - 8)), data);
      const file = await open(path('large.mp4'), 'w');
      await file.write(head, 0, head.length, 0);
      await file.write(bytes, index, bytes.length - index, end);
      await file.close();
    },
    expect: { seconds: 6, width: 320, height: 180, sound: true },
  },
  {
    name: 'cameras held differently in one recording',
    files: ['level.mp4', 'upright.mp4'],
    async make(path) {
      await ffmpeg(...picture(6), ...noise(6), ...fast, path('level.mp4'));
      await ffmpeg(...picture(4), ...noise(4), ...fast, path('flat.mp4'));
      await ffmpeg('-i', path('flat.mp4'), '-c', 'copy', '-metadata:s:v', 'rotate=90', path('upright.mp4'));
    },
    expect: { seconds: 10, width: 320, height: 180, sound: true, told: /held differently/ },
  },
  {
    name: 'files of different size and rate',
    files: ['big.mp4', 'small.mp4'],
    async make(path) {
      await ffmpeg(...picture(6), ...noise(6), ...fast, path('big.mp4'));
      await ffmpeg(...picture(4, '240x240', '50'), ...noise(4), ...fast, path('small.mp4'));
    },
    expect: { seconds: 10, width: 320, height: 180, sound: true, told: /small\.mp4 has 240 × 240 pixels at 50/ },
  },
  {
    name: 'a variable frame rate from a phone',
    files: ['phone.mp4'],
    async make(path) {
      // Frames dropped here and there, and times that wander, as phones do in poor light.
      const wander = "select='not(eq(mod(n,7),3))',settb=1/90000,setpts='PTS+(mod(N*7919,13)-6)*0.0008/TB'";
      await ffmpeg(
        ...picture(8, '320x180', '30'),
        ...noise(8),
        '-vf',
        wander,
        '-fps_mode',
        'vfr',
        '-enc_time_base',
        '1:90000',
        ...fast,
        path('phone.mp4'),
      );
    },
    expect: { seconds: 8, width: 320, height: 180, sound: true, told: /evenly/ },
  },
  {
    name: 'a phone held upright',
    files: ['upright.mp4'],
    async make(path) {
      await ffmpeg(...picture(5), ...noise(5), ...fast, path('flat.mp4'));
      await ffmpeg('-i', path('flat.mp4'), '-c', 'copy', '-metadata:s:v', 'rotate=90', path('upright.mp4'));
    },
    expect: { seconds: 5, width: 180, height: 320, sound: true },
  },
  {
    name: 'no sound at all',
    files: ['mute.mp4'],
    make: (path) => ffmpeg(...picture(5), ...fast, path('mute.mp4')),
    expect: { seconds: 5, sound: false, told: /no sound/ },
  },
  {
    name: 'two sound tracks',
    files: ['two.mkv'],
    make: (path) =>
      ffmpeg(...picture(5), ...noise(5), ...noise(5), '-map', '0', '-map', '1', '-map', '2', ...fast, path('two.mkv')),
    expect: { seconds: 5, sound: true, told: /2 sound tracks/ },
  },
  {
    name: 'sound shorter than the picture',
    files: ['short-sound.mp4'],
    make: (path) => ffmpeg(...picture(8), ...noise(5), ...fast, path('short-sound.mp4')),
    expect: { seconds: 8, sound: true },
  },
  {
    name: 'power lost while recording, in a container that survives it',
    files: ['cut-off.mkv'],
    async make(path) {
      await ffmpeg(...picture(20), ...noise(20), ...fast, path('cut-off.mkv'));
      await truncate(path('cut-off.mkv'), Math.floor((await stat(path('cut-off.mkv'))).size / 2));
    },
    expect: { sound: true, told: /breaks off/ },
  },
  {
    name: 'a copy that broke off: the index promises more than there is',
    files: ['half.mp4'],
    async make(path) {
      await ffmpeg(...picture(20), ...noise(20), ...fast, '-movflags', '+faststart', path('half.mp4'));
      await truncate(path('half.mp4'), Math.floor((await stat(path('half.mp4'))).size / 2));
    },
    expect: { sound: true, told: /breaks off/ },
  },
  {
    name: 'an MP4 file that was never finished: no index',
    files: ['unfinished.mp4'],
    async make(path) {
      await ffmpeg(...picture(5), ...noise(5), ...fast, path('whole.mp4'));
      const bytes = await readFile(path('whole.mp4'));
      const file = await open(path('unfinished.mp4'), 'w');
      await file.write(bytes.subarray(0, bytes.indexOf('moov') - 4));
      await file.close();
    },
    expect: { told: /index/ },
  },
  {
    name: 'HEVC',
    files: ['hevc.mp4'],
    make: (path) =>
      ffmpeg(
        ...picture(4),
        ...noise(4),
        '-c:v',
        'libx265',
        '-preset',
        'ultrafast',
        '-x265-params',
        'log-level=error',
        '-c:a',
        'aac',
        path('hevc.mp4'),
      ),
    expect: { seconds: 4, width: 320, height: 180, sound: true, told: /hevc, not H\.264/ },
  },
  {
    name: 'MJPEG in AVI with PCM sound',
    files: ['mjpeg.avi'],
    make: (path) =>
      ffmpeg(
        ...picture(4),
        ...noise(4),
        '-c:v',
        'mjpeg',
        '-pix_fmt',
        'yuvj420p',
        '-c:a',
        'pcm_s16le',
        path('mjpeg.avi'),
      ),
    expect: { seconds: 4, width: 320, height: 180, sound: true, told: /mjpeg/ },
  },
  {
    name: 'AVCHD: interlaced H.264 and AC-3 in a transport stream',
    files: ['00001.MTS'],
    make: (path) =>
      ffmpeg(
        ...picture(5),
        ...noise(5),
        ...[
          '-vf',
          'tinterlace=interleave_top',
          '-r',
          '25',
          '-c:v',
          'libx264',
          '-flags',
          '+ilme+ildct',
          '-preset',
          'ultrafast',
        ],
        ...['-x264-params', 'tff=1', '-c:a', 'ac3', '-f', 'mpegts', path('00001.MTS')],
      ),
    expect: { width: 320, sound: true, told: /interlaced|container/ },
  },
  {
    name: 'odd names: blanks, quotes, percent, other scripts',
    files: ["Kette & Ritzel – 100% 'späť' 链条 #1 [a].mp4"],
    async make(path) {
      await ffmpeg(...picture(5), ...noise(5), ...fast, path('plain.mp4'));
      await copyFile(path('plain.mp4'), path("Kette & Ritzel – 100% 'späť' 链条 #1 [a].mp4"));
    },
    expect: { seconds: 5, width: 320, height: 180, sound: true },
  },
];
