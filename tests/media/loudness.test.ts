import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { integratedLoudness } from '../../src/core/media/index.ts';
import { fromSeconds, range } from '../../src/core/time/index.ts';
import { lookThrough } from '../../src/node/media/analyse.ts';
import { fileAnalysis } from '../../src/node/media/analyse-file.ts';
import { examine } from '../../src/node/media/examine.ts';
import { runJobs } from '../../src/node/media/pool.ts';
import { Progress, SILENT } from '../../src/node/media/progress.ts';
import { Store } from '../../src/node/media/store.ts';
import copied from '../reference/loudness.json' with { type: 'json' };
import { published } from '../support/published.ts';
import { ffmpeg, testPicture, workspace } from './make.ts';
import { render, shopWith, tools } from './shop.ts';

const reference = published(copied);
const TECH_3341 = reference.values['EBU Tech 3341, 2023, table 1'];
const TECH_3342 = reference.values['EBU Tech 3342, 2023, table 1'];
/** Of the test signals, Hz. */
const RATE = 48_000;
const TONE = 1000;
/** s; a tone of true peaks that begins hard overshoots. */
const FADE = 0.01;
let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

/** Channels side by side as a WAV file of 32-bit floats. */
async function wav(name: string, channels: readonly Float32Array[]): Promise<string> {
  const frames = channels[0]?.length ?? 0;
  const mixed = new Float32Array(frames * channels.length);
  channels.forEach((channel, c) => {
    channel.forEach((value, i) => {
      mixed[i * channels.length + c] = value;
    });
  });
  await writeFile(folder.path(`${name}.f32`), Buffer.from(mixed.buffer));
  const layout = channels.length === 5 ? '5.0(side)' : 'stereo';
  const form = ['-f', 'f32le', '-ar', String(RATE), '-ac', String(channels.length)];
  const path = folder.path(`${name}.wav`);
  await ffmpeg(...form, '-channel_layout', layout, '-i', folder.path(`${name}.f32`), '-c:a', 'pcm_f32le', path);
  return path;
}

function sine(seconds: number, dbfs: number): Float32Array {
  const amplitude = 10 ** (dbfs / 20);
  return Float32Array.from(
    { length: Math.round(seconds * RATE) },
    (_, i) => amplitude * Math.sin((2 * Math.PI * TONE * i) / RATE),
  );
}

function joined(parts: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** What our analysis says of a file. */
async function analysed(path: string) {
  const store = await Store.open(folder.path('store'));
  const place = { tools: await tools(), store, signal: new AbortController().signal, progress: new Progress(SILENT) };
  const [found = ''] = await runJobs([lookThrough(await examine(path, place.tools), 0)], place);
  await store.close();
  return fileAnalysis.parse(JSON.parse(await readFile(join(found, 'facts.json'), 'utf8')));
}

type Signal = readonly [level: number, seconds: number];
const stereo = (segments: readonly Signal[], repeat = 1) => {
  const once = segments.map(([level, seconds]) => sine(seconds, level));
  const channel = joined(Array.from({ length: repeat }, () => once).flat());
  return [channel, channel];
};

test.each(TECH_3341.integrated)('EBU Tech $id', async ({ id, segments, levels, seconds, integrated, tolerance }) => {
  const channels = segments
    ? stereo(segments as unknown as readonly Signal[])
    : Object.values(levels ?? {}).map((level) => sine(seconds ?? 0, level));
  const found = await analysed(await wav(id, channels));
  expect(Math.abs((found.integrated ?? 0) - integrated)).toBeLessThanOrEqual(tolerance);
  // The programme's loudness comes from the same blocks, by our own gates.
  const own = integratedLoudness(found.momentary.slice(3)) ?? 0;
  expect(Math.abs(own - integrated)).toBeLessThanOrEqual(tolerance);
});

test.each(TECH_3342.range)('EBU Tech $id', async ({ id, segments, lra, tolerance }) => {
  const found = await analysed(await wav(id, stereo(segments as unknown as readonly Signal[])));
  expect(Math.abs((found.range ?? 0) - lra)).toBeLessThanOrEqual(tolerance);
});

test.each(TECH_3341.truePeak)('true peak of EBU Tech $id', async (signal) => {
  const { id, amplitude, samplesPerPeriod, phaseDegrees, truePeak: wanted } = signal;
  const fade = FADE * RATE;
  const length = 2 * RATE;
  const tone = Float32Array.from({ length }, (_, i) => {
    const level = Math.min(1, i / fade, (length - i) / fade);
    return level * amplitude * Math.sin((2 * Math.PI * i) / samplesPerPeriod + (phaseDegrees * Math.PI) / 180);
  });
  const { truePeak = -99 } = await analysed(await wav(id, [tone, tone]));
  expect(truePeak - wanted).toBeLessThanOrEqual(TECH_3341.truePeakTolerance.plus);
  expect(wanted - truePeak).toBeLessThanOrEqual(TECH_3341.truePeakTolerance.minus);
});

// EBU R 128: ±0.2 LU of measuring allowance round the target (the meter adds 0.1 by rounding), true peak at most −1 dBTP; read with ffmpeg's own meter.
test.each([
  [-23, 1],
  [-16, 6],
])('a programme comes out at %d LUFS, its peaks held', async (target, hammer) => {
  const content = await shopWith(
    folder.path(`level${target}`),
    'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:02", out: "0:00:11"}\n  - {in: "0:00:15", out: "0:00:28"}\n',
  );
  const noise = `anoisesrc=c=pink:r=48000:a=0.3:d=30,lowpass=f=4000,tremolo=f=0.5:d=0.7,volume='if(lt(mod(t,3),0.01),${hammer},1)':eval=frame`;
  await ffmpeg(
    ...testPicture('160x90', '25', 30),
    ...[
      '-f',
      'lavfi',
      '-i',
      noise,
      '-preset',
      'ultrafast',
      '-g',
      '25',
      '-c:a',
      'aac',
      '-b:a',
      '192k',
      `${content}/media/a.mp4`,
    ],
  );
  const { done } = await render(content, `${content}/out.mp4`, { target });
  const { stderr } = await execa('ffmpeg', [
    '-nostdin',
    '-i',
    `${content}/out.mp4`,
    '-af',
    'ebur128=peak=true',
    '-f',
    'null',
    '-',
  ]);
  const summary = stderr.slice(stderr.lastIndexOf('Summary:'));
  const integrated = Number(/I:\s+(-?[\d.]+) LUFS/.exec(summary)?.[1]);
  const peak = Number(/True peak:\s+Peak:\s+(-?[\d.]+) dBFS/.exec(summary)?.[1]);
  expect(done.levelling?.limit).toBe(target === -16);
  expect(Math.abs(integrated - target)).toBeLessThanOrEqual(0.3);
  expect(peak).toBeLessThanOrEqual(-1);
});

// The same meter (ffmpeg's ebur128, ITU-R BS.1770) reads the drawn voice alone out of what was rendered: tools 18 dB louder
// beside it, and a cut through both, must not move it.
test('speech comes out at the target, however loud the tools beside it are', async () => {
  const content = await shopWith(
    folder.path('speech'),
    'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:05", out: "0:00:40"}\n',
  );
  // A voice for ten seconds, then a tool for ten, over and over.
  const voice = "anoisesrc=c=pink:r=48000:a=0.05:d=40:seed=1,volume='if(lt(mod(t,20),10),1,8)':eval=frame";
  const sound = ['-f', 'lavfi', '-i', voice, '-preset', 'ultrafast', '-g', '25', '-c:a', 'aac', '-b:a', '192k'];
  await ffmpeg(...testPicture('160x90', '25', 40), ...sound, `${content}/media/a.mp4`);
  const at = (seconds: number) => fromSeconds<'recording'>(seconds);
  const speech = [range(at(0), at(10)), range(at(20), at(30))];
  const heard = async (from: number, until: number) => {
    const cut = `atrim=${from}:${until},ebur128`;
    const { stderr } = await execa('ffmpeg', ['-nostdin', '-i', `${content}/out.mp4`, '-af', cut, '-f', 'null', '-']);
    return Number(/I:\s+(-?[\d.]+) LUFS/.exec(stderr.slice(stderr.lastIndexOf('Summary:')))?.[1]);
  };
  const { done } = await render(content, `${content}/out.mp4`, { target: -42, speech });
  // In the programme the voice is heard from 0 to 5 s and from 15 to 25 s.
  expect(Math.abs((await heard(15.1, 24.9)) + 42)).toBeLessThanOrEqual(0.4);
  const whole = await heard(0, 35);
  expect(whole).toBeGreaterThan(-30);
  const { loudness = 0, programme = 0, gain = 0 } = done.levelling ?? {};
  expect(Math.abs(loudness + gain + 42)).toBeLessThanOrEqual(0.2);
  expect(Math.abs(programme + gain - whole)).toBeLessThanOrEqual(0.4);
  // Without knowing where it is, the tools decide.
  await render(content, `${content}/out.mp4`, { target: -42 });
  expect(await heard(15.1, 24.9)).toBeLessThan(-52);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
