import { execFile } from 'node:child_process';
import { readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const RATE = 16_000;

/** One thing shown: what is said at its beginning and while hands work, and what an editor would call it. */
interface Shown {
  readonly title: string;
  readonly says: readonly string[];
  /** Nobody is there afterwards, s. */
  readonly away?: number;
}

/**
 * Twelve steps as somebody speaks who says what comes next, as a teacher does (common practice, no source); the
 * seventh is begun with a remark, the eleventh without a rest, the tenth is botched and said again. Invented.
 */
const SHOWN: readonly Shown[] = [
  {
    title: 'Put the bike on its stand',
    says: ['First, put the bike on its stand.', 'Both wheels straight, on level ground.'],
  },
  {
    title: 'Loosen the axle nut',
    says: ['Now loosen the axle nut.', 'The tyre still stands on the floor, so nothing can tip.'],
    away: 35,
  },
  {
    title: 'Slacken the chain adjusters',
    says: ['Next, slacken the chain adjusters.', 'Half a turn on either side, and count them.'],
  },
  {
    title: 'Push the wheel forward',
    says: ['Then push the wheel forward.', 'There, the chain hangs down by itself.'],
    away: 40,
  },
  { title: 'Lift the chain off', says: ['Okay, lift the chain off.', 'My fingers stay away from the teeth.'] },
  { title: 'Pull the axle out', says: ['Now we pull the axle out.', 'A mallet helps, and a block of wood.'], away: 35 },
  {
    title: 'Take the wheel out',
    says: ['This one is heavier than it looks.', 'The spacers fall out if nobody holds them.'],
  },
  { title: 'Clean the sprocket', says: ['Next, clean the sprocket.', 'A brush and some patience will do.'], away: 45 },
  {
    title: 'Check the chain for stiff links',
    says: ['Now check the chain for stiff links.', 'Roll each one between two fingers.'],
  },
  {
    title: 'Put the wheel back in',
    says: ['Then put the wheel back in, spacers first.', 'It slides in by hand.'],
    away: 35,
  },
  { title: 'Set the slack', says: ['We set the slack here.', 'The manual says how much of it.'] },
  {
    title: 'Tighten the axle nut',
    says: ['Finally, tighten the axle nut.', 'The torque wrench clicks once.'],
    away: 30,
  },
];
const BOTCHED = 'Put the wheel back in';
const WITHOUT_REST = 'Set the slack';

/** A stretch of the recording, s. */
interface Stretch {
  readonly start: number;
  readonly end: number;
}
/** What the walk has to arrive at. */
export interface WalkFootage {
  readonly steps: readonly { readonly title: string; readonly at: number }[];
  readonly cuts: readonly Stretch[];
  readonly length: number;
}

/**
 * A card with three camera files, a phone's film, a recorder's sound and captions of what is said, all drawn and
 * spoken by ffmpeg (with flite): small, and the same each time.
 */
export async function drawWalkFootage(card: string): Promise<WalkFootage> {
  const ffmpeg = (...words: string[]) => run('ffmpeg', ['-v', 'error', '-y', ...words]);
  const sound: Int16Array[] = [];
  let at = 0;
  const add = (samples: Int16Array) => {
    sound.push(samples);
    at += samples.length / RATE;
  };
  const away: Stretch[] = [];
  const cuts: Stretch[] = [];
  const steps: { title: string; at: number }[] = [];
  const cues: string[] = [];
  const say = async (words: string) => {
    const path = join(card, 'said.s16');
    const voice = `flite=text='${words.replaceAll("'", '')}'`;
    await ffmpeg('-f', 'lavfi', '-i', voice, '-ar', String(RATE), '-ac', '1', '-f', 's16le', path);
    const bytes = await readFile(path);
    const from = at;
    add(new Int16Array(bytes.buffer, bytes.byteOffset, bytes.length >> 1).slice());
    cues.push(`${clock(from)} --> ${clock(at)}\n${words}`);
  };
  const leave = (seconds: number) => {
    const from = at;
    add(noise(seconds, 0));
    away.push({ start: from, end: at });
    cuts.push({ start: from, end: at });
  };

  leave(30);
  for (const { title, says, away: empty } of SHOWN) {
    const [first = '', ...more] = says;
    if (title === BOTCHED) {
      const from = at;
      await say(first);
      add(noise(3, 1));
      await say('No, that is the wrong side.');
      add(noise(12, 1));
      cuts.push({ start: from, end: at });
    }
    steps.push({ title, at });
    await say(first);
    add(noise(7, 1));
    for (const words of more) {
      await say(words);
      add(noise(SHOWN[steps.length]?.title === WITHOUT_REST && !empty ? 1 : 16, 1));
    }
    if (empty) leave(empty);
  }
  await rm(join(card, 'said.s16'));
  const length = at;
  const samples = new Int16Array(sound.reduce((sum, one) => sum + one.length, 0));
  let offset = 0;
  for (const one of sound) {
    samples.set(one, offset);
    offset += one.length;
  }
  const whole = join(card, 'whole.wav');
  await writeFile(whole, wav(samples));
  await writeFile(join(card, 'words.vtt'), `WEBVTT\n\n${cues.join('\n\n')}\n`);

  // Nothing moves while nobody is there.
  const empty = away.map(({ start, end }) => `between(t,${start.toFixed(2)},${end.toFixed(2)})`).join('+');
  const picture = ['-f', 'lavfi', '-i', `testsrc2=s=160x90:r=25:d=${length.toFixed(2)}`];
  const small = ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '50', '-pix_fmt', 'yuv420p', '-c:a', 'aac'];
  const film = join(card, 'whole.mp4');
  const still = ['-vf', `drawbox=color=gray:t=fill:enable='${empty}'`];
  await ffmpeg(...picture, '-i', whole, ...still, ...small, '-shortest', film);
  const parts = ['-f', 'segment', '-segment_time', String(length / 3), '-reset_timestamps', '1'];
  await ffmpeg('-i', film, '-c', 'copy', ...parts, join(card, 'cam-%03d.mp4'));
  await ffmpeg('-ss', '100', '-t', '150', '-i', film, ...small, '-r', '15', join(card, 'phone.mp4'));
  await ffmpeg('-ss', '20', '-t', '300', '-i', whole, join(card, 'voice.wav'));
  await rm(film);
  await rm(whole);
  // Three files, written one after the other.
  const noon = Date.UTC(2027, 0, 16, 12) / 1000;
  for (const [i, name] of (await readdir(card))
    .filter((file) => file.startsWith('cam-'))
    .toSorted()
    .entries())
    await utimes(join(card, name), noon, noon + ((i + 1) * length) / 3);
  return { steps, cuts, length };
}

/** Hands at work, or the empty room: a hiss that is the same each time. */
function noise(seconds: number, hands: 0 | 1): Int16Array {
  let seed = 7;
  return Int16Array.from({ length: Math.round(seconds * RATE) }, (_, i) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) & 0x7fffffff;
    const hiss = (seed / 0x7fffffff - 0.5) * 2;
    const knock = hands && i % 11_000 < 500 ? 5000 : 0;
    return Math.round(hiss * (hands * 250 + 12 + knock));
  });
}

function clock(seconds: number): string {
  const ms = Math.round(seconds * 1000);
  const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
  return `00:${two(ms / 60_000)}:${two((ms / 1000) % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}

/** Samples as a WAV file (RIFF, PCM, one channel, 16 bits). */
function wav(samples: Int16Array): Buffer {
  const data = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  const head = Buffer.alloc(44);
  head.write('RIFF', 0, 'latin1');
  head.writeUInt32LE(36 + data.length, 4);
  head.write('WAVEfmt ', 8, 'latin1');
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE, 24);
  head.writeUInt32LE(RATE * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36, 'latin1');
  head.writeUInt32LE(data.length, 40);
  return Buffer.concat([head, data]);
}
