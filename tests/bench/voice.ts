/**
 * What it costs to find speech, against decoding, in one run:
 *
 *     npx node tests/bench/voice.ts [minutes, 120 when left out]
 *
 * The sound is the demo's, over and over. Named alternatives: decoding the sound alone, and decoding picture and sound,
 * both to nothing, as ffmpeg does it by itself. Told in seconds of a processor, which a busy machine changes least.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { execa } from 'execa';
import { VOICE_WINDOW, voiceArgs } from '../../src/core/media/index.ts';
import { streamFfmpeg } from '../../src/node/media/ffmpeg.ts';
import { inWindows } from '../../src/node/media/find-voice.ts';
import { findListener } from '../../src/node/media/listener.ts';
import { findTools } from '../../src/node/media/tools.ts';

const minutes = Number(process.argv[2] ?? 120);
const tools = await findTools(process.env);
const listener = await findListener();
if (!tools.ok || !listener.ok) throw new Error(tools.ok ? 'the network for speech is not here' : tools.problem);
/** Runs ffmpeg. @returns what it took of a processor, s */
async function ffmpeg(...args: string[]): Promise<number> {
  const program = tools.ok ? tools.value.ffmpeg : '';
  const { stderr } = await execa(program, ['-v', 'info', '-nostats', '-benchmark', '-nostdin', '-y', ...args]);
  const [, user, system] = /bench: utime=([\d.]+)s stime=([\d.]+)s/.exec(stderr) ?? [];
  return Number(user) + Number(system);
}
const folder = await mkdtemp(join(tmpdir(), 'bench-voice-'));

/** @param work gives the processor's seconds that other processes took for it */
async function timed(what: string, work: () => Promise<number>): Promise<number> {
  const from = process.cpuUsage();
  const others = await work();
  const { user, system } = process.cpuUsage(from);
  const seconds = (user + system) / 1e6 + others;
  process.stdout.write(`${what.padEnd(44)} ${seconds.toFixed(1).padStart(8)} s\n`);
  return seconds;
}

try {
  const list = join(folder, 'list.txt');
  await writeFile(list, `file '${resolve('content/media/front-brake.mp4')}'\n`.repeat(Math.ceil(minutes / 58)));
  const film = join(folder, 'film.mp4');
  const length = ['-t', String(minutes * 60)];
  await ffmpeg('-f', 'concat', '-safe', '0', '-i', list, ...length, '-c', 'copy', film);
  const sound = await timed('decoding the sound alone', () => ffmpeg('-i', film, '-map', '0:a', '-f', 'null', '-'));
  const all = await timed('decoding picture and sound', () => ffmpeg('-i', film, '-f', 'null', '-'));
  let spoken = 0;
  const network = await timed('finding speech', async () => {
    const listening = listener.value.listen();
    const add = (found: readonly (readonly [number, number])[]) => {
      for (const [start, end] of found) spoken += end - start;
    };
    for await (const samples of inWindows(streamFfmpeg(tools.value, voiceArgs(film, 1)), VOICE_WINDOW))
      add(listening.hear(samples));
    add(listening.end());
    // Its own decoding is as dear as the first one.
    return sound;
  });
  const memory = process.resourceUsage().maxRSS / 1024;
  process.stdout.write(
    `${minutes} min of sound, ${Math.round(spoken / 60)} min of it speech; at most ${Math.round(memory)} MiB\n` +
      `finding speech takes ${(network / sound).toFixed(1)} times as long as decoding the sound, ` +
      `${(network / all).toFixed(2)} times as long as decoding picture and sound\n`,
  );
} finally {
  await rm(folder, { recursive: true, force: true });
}
