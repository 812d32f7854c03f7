/**
 * What it costs to find speech, and to lay a text on it, against bare decoding of the sound, in one run:
 *
 *     npx node tests/bench/words.ts [minutes, 120 when left out]
 *
 * The sound is the demo's, over and over: as it is (16 kHz, one channel, 16 kbit/s), and as cameras write it (AAC,
 * 48 kHz, two channels, 192 kbit/s). Named alternative: ffmpeg decoding each to samples at 16 kHz, by itself. Told by
 * the clock, which is what a person waits for, and in seconds of a processor, children counted, which a busy machine
 * changes less; Linux tells them.
 *
 * The aims are 1.5 times for speech and 3 times for a text, by the clock, on an idle machine. The first has a floor: to
 * decode, and the network by itself on sound that lies in memory, which this prints too, shared by the processors.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { execa } from 'execa';
import { VOICE_RATE, VOICE_SETTINGS } from '../../src/core/media/index.ts';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { readScript } from '../../src/core/words/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { decodeSound } from '../../src/node/media/decoded-sound.ts';
import { findVoice, foundVoice } from '../../src/node/media/find-voice.ts';
import { findListener } from '../../src/node/media/listener.ts';
import { runJsonJobs, type Workplace, want } from '../../src/node/media/pool.ts';
import { Progress, SILENT } from '../../src/node/media/progress.ts';
import { Store } from '../../src/node/media/store.ts';
import { findTools } from '../../src/node/media/tools.ts';
import { onPath } from '../../src/node/programs/index.ts';
import { layWords } from '../../src/node/words/lay-words.ts';
import { SHOOTS } from '../footage/script/index.ts';
import { linesOf } from '../footage/script/lines.ts';
import { shotsOf } from '../footage/script/timeline.ts';
import { soundOf } from '../footage/sound/soundtrack.ts';

const minutes = Number(process.argv[2] ?? 120);
const tools = await findTools(process.env);
const listener = await findListener();
const espeak = await onPath(['espeak-ng'], process.env);
if (!tools.ok || !listener.ok || espeak === undefined)
  throw new Error('ffmpeg, the network for speech and espeak-ng are needed');
const { value: found } = tools;
const folder = await mkdtemp(join(tmpdir(), 'bench-words-'));
const say = (line: string) => process.stdout.write(`${line}\n`);
const ffmpeg = (...args: string[]) => execa(found.ffmpeg, ['-v', 'error', '-nostdin', '-y', ...args]);

/** Seconds of a processor that this process and its ended children have taken. Source: proc(5), fields 14 to 17. */
async function processorSeconds(): Promise<number> {
  const stat = await readFile('/proc/self/stat', 'utf8');
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0) / 100;
}

/** What something took. */
interface Took {
  readonly processor: number;
  readonly clock: number;
}

/** The network on minutes of sound that is decoded already, in one piece: what no way of decoding can better. */
async function networkAlone(path: string, most: number): Promise<number> {
  if (!listener.ok) return 0;
  const ear = listener.value.start();
  const sound = { path, stream: 0, beside: join(folder, 'alone.f32') };
  const took = await decodeSound(found, sound, {}, async ({ file, reach }) => {
    await reach(Number.POSITIVE_INFINITY);
    await ear.hear({ file, from: 0, length: VOICE_RATE });
    const length = Math.min(most, minutes) * 60 * VOICE_RATE;
    return timed(`the network alone, on ${Math.min(most, minutes)} min`, () => ear.hear({ file, from: 0, length }));
  });
  await ear.close();
  return took.processor * (minutes / Math.min(most, minutes));
}

async function timed(what: string, work: () => Promise<unknown>): Promise<Took> {
  const from = await processorSeconds();
  const began = performance.now();
  await work();
  const processor = (await processorSeconds()) - from;
  const clock = (performance.now() - began) / 1000;
  say(
    `${what.padEnd(52)} ${processor.toFixed(1).padStart(7)} s of a processor, ${clock.toFixed(1).padStart(7)} s by the clock`,
  );
  return { processor, clock };
}

/** Where somebody speaks, in ticks of the recording. */
async function findSpeech(path: string, place: Workplace): Promise<[number, number][]> {
  if (!listener.ok) return [];
  const params = { sound: 0, soundLate: 0, listener: listener.value.name, settings: VOICE_SETTINGS };
  const wanted = want(findVoice(listener.value), [{ path, content: path }], params, minutes * 60);
  const [result] = await runJsonJobs([wanted], foundVoice, place);
  return (result?.talk ?? []).map(([start, end]) => [
    Math.round(start * TICKS_PER_SECOND),
    Math.round(end * TICKS_PER_SECOND),
  ]);
}

/** How much longer than bare decoding, by the clock and in seconds of a processor. */
function times(took: Took, decode: Took): string {
  const by = (which: keyof Took) => (took[which] / decode[which]).toFixed(1);
  return `${by('clock')} times as long as bare decoding by the clock, ${by('processor')} times its processor`;
}

try {
  say(
    `load ${loadavg()
      .map((one) => one.toFixed(1))
      .join(', ')} before`,
  );
  await mkdir(join(folder, 'media'));
  await mkdir(join(folder, 'recordings'));
  const list = join(folder, 'list.txt');
  const demo = resolve('content/media/front-brake.mp4');
  await writeFile(list, `file '${demo}'\n`.repeat(Math.ceil(minutes / 58)));
  const own = join(folder, 'media/own.mka');
  const camera = join(folder, 'media/camera.mka');
  const length = ['-t', String(minutes * 60)];
  await ffmpeg('-f', 'concat', '-safe', '0', '-i', list, ...length, '-map', '0:a', '-c', 'copy', own);
  await ffmpeg('-i', own, '-ar', '48000', '-ac', '2', '-c:a', 'aac', '-aac_coder', 'fast', '-b:a', '192k', camera);
  const text = SHOOTS.filter(({ id }) => id === 'front-brake')
    .flatMap((shoot) => {
      const lines = linesOf(shoot);
      return shotsOf(shoot).flatMap((shot, i) => soundOf(shot, lines[i] ?? []).spoken);
    })
    .map((one) => one.text.replaceAll('\u00a0', ' '));
  const script = Array.from({ length: Math.ceil(minutes / 58) }, () => text).flat();
  const spoken = script.slice(0, Math.round((script.length * minutes) / (58.1 * Math.ceil(minutes / 58.1))));
  const sentences = readScript(spoken.join('\n'));
  for (const [name, path] of Object.entries({ own, camera })) {
    const decode = await timed(`${name}: decoding to samples`, () =>
      ffmpeg('-i', path, '-ac', '1', '-ar', '16000', '-f', 'f32le', '-y', '/dev/null'),
    );
    const store = await Store.open(folder);
    const place = { tools: found, store, signal: new AbortController().signal, progress: new Progress(SILENT) };
    let speech: [number, number][] = [];
    const network = await timed(`${name}: finding speech, decoding among it`, async () => {
      speech = await findSpeech(path, place);
    });
    const alone = await networkAlone(path, 10);
    await writeFile(
      join(folder, 'recordings', `${name}.yaml`),
      `title: Take\nfiles: [{file: media/${name}.mka}]\nrate: "25"\n`,
    );
    const { shop } = await loadShop(folder);
    const recording = shop.recordings.find(({ id }) => id === name);
    if (!recording) throw new Error('the recording could not be read');
    let placed = 0;
    const laying = await timed(`${name}: laying ${sentences.length} sentences on it`, async () => {
      const voice = { program: espeak, language: 'en-us' };
      const { missing } = await layWords(folder, recording, sentences, { speech }, voice, place);
      placed = sentences.length - missing.length;
    });
    await store.close();
    await rm(join(folder, '.liftside'), { recursive: true, force: true });
    const minutesSpoken = speech.reduce((sum, [start, end]) => sum + end - start, 0) / TICKS_PER_SECOND / 60;
    say(
      `${name}: ${minutes} min, ${minutesSpoken.toFixed(0)} min of it speech; finding it takes ${times(network, decode)} (the network alone ${(alone / decode.processor).toFixed(1)} times); laying the text takes ${times(laying, decode)}; ${placed} of ${sentences.length} sentences placed`,
    );
  }
  say(
    `at most ${Math.round(process.resourceUsage().maxRSS / 1024)} MiB; load ${loadavg()
      .map((one) => one.toFixed(1))
      .join(', ')} after`,
  );
} finally {
  await rm(folder, { recursive: true, force: true });
}
