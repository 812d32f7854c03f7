import { existsSync, readdirSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readCaptions, timedWords } from '../../src/core/read/index.ts';
import { toSeconds } from '../../src/core/time/index.ts';
import { findListener } from '../../src/node/media/listener.ts';
import { writeToneNetwork, writeToneTransducer } from '../support/tone-network.ts';
import { ffmpeg, workspace } from './make.ts';
import { shopWith } from './shop.ts';
import { shopThatSings } from './sung.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

const RUNS = (await findListener()).ok;
const MAIN = resolve('src/node/cli/liftside.mjs');

const transcribe = (content: string, model: string, ...more: string[]) =>
  execa(process.execPath, [MAIN, 'transcribe', 'take', '--content', content, '--model', model, ...more], {
    cwd: content,
    reject: false,
  });

async function wordsIn(content: string) {
  const { captions, diagnostics } = readCaptions('take.vtt', await readFile(join(content, 'media/take.vtt'), 'utf8'));
  expect(diagnostics).toEqual([]);
  return captions.flatMap(({ markup, at }) =>
    timedWords(markup, at.start).map((word) => ({ text: word.markup.trim(), start: toSeconds(word.at) })),
  );
}

/** Four words of a second or so every ten seconds. */
function talkFor(seconds: number) {
  const texts = ['loosen', 'the', 'axle', 'nut'];
  return Array.from({ length: Math.floor(seconds / 10) }, (_, i) => i * 10 + 1).flatMap((from) =>
    texts.map((text, n) => [text, from + n * 1.7] as const),
  );
}

test.skipIf(!RUNS)('killed in the middle it goes on where it was, and comes to the same captions', async () => {
  const model = await writeToneNetwork(folder.path('model'));
  const { content, sung } = await shopThatSings(folder.path, 'killed', talkFor(1800), 1800);
  const kept = () => readdirSync(join(content, '.liftside/media')).filter((name) => name.startsWith('recognise-'));
  const running = transcribe(content, model);
  let ended = false;
  const done = running.finally(() => {
    ended = true;
  });
  while (kept().length < 2 && !ended) await setTimeout(5);
  running.kill('SIGKILL');
  await done;
  const before = kept().length;
  expect(existsSync(join(content, 'media/take.vtt'))).toBe(false);
  const { exitCode, stderr } = await transcribe(content, model);
  expect([exitCode, stderr]).toEqual([0, expect.stringContaining(`${sung.length} words recognised`)]);
  console.log(`${before} of ${kept().length} minutes of talk were kept by the run that was killed`);
  expect(before).toBeGreaterThanOrEqual(2);
  expect(kept().length).toBeGreaterThan(before);
  const words = await wordsIn(content);
  expect(words.map(({ text }) => text)).toEqual(sung.map(({ text }) => text));
  // Frames of 40 ms tell when a word begins; a caption's first word has the time of its caption, a little earlier.
  const late = words.map(({ start }, i) => start - (sung[i]?.start ?? 0));
  expect(Math.max(...late)).toBeLessThan(0.06);
  expect(late.filter((one) => one < -0.06).every((one) => one > -0.4)).toBe(true);
});

test.skipIf(!RUNS)('what words.yaml says is rather heard than what sounds alike', async () => {
  const model = await writeToneTransducer(folder.path('transducer'), 'ou');
  const { content } = await shopThatSings(
    folder.path,
    'hot',
    [
      ['torque', 1],
      ['the', 2.8],
      ['n[uo]t', 4],
    ],
    7,
  );
  const heard = async () => {
    const { exitCode, stderr } = await transcribe(content, model);
    expect([exitCode, stderr]).toEqual([0, expect.stringContaining('3 words recognised')]);
    return (await wordsIn(content)).map(({ text }) => text).join(' ');
  };
  expect(await heard()).toBe('torque the nut');
  await writeFile(join(content, 'words.yaml'), 'words:\n  - {say: not, also: [knot]}\n');
  expect(await heard()).toBe('torque the not');
});

/** The most memory that a process took so far, MiB; 0 where it is gone. Linux tells it. */
async function peakOf(pid: number | string): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '');
  return Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024;
}

test.skipIf(!RUNS || process.platform !== 'linux')('three hours take no more memory than ten minutes', async () => {
  const model = await writeToneNetwork(folder.path('model-long'));
  const measured: number[] = [];
  for (const times of [1, 18]) {
    const { content, sung } = await shopThatSings(folder.path, `long-${times}`, talkFor(600), 600, times);
    const running = transcribe(content, model);
    let [own, child] = [0, 0];
    let ended = false;
    const done = running.finally(() => {
      ended = true;
    });
    while (!ended) {
      own = Math.max(own, await peakOf(running.pid ?? 0));
      const path = `/proc/${running.pid}/task/${running.pid}/children`;
      for (const pid of (await readFile(path, 'utf8').catch(() => '')).split(' ').filter(Boolean)) {
        const name = await readFile(`/proc/${pid}/cmdline`, 'utf8').catch(() => '');
        if (name.includes('recogniser-child')) child = Math.max(child, await peakOf(pid));
      }
      await setTimeout(50);
    }
    const { exitCode, stderr } = await done;
    expect([exitCode, stderr]).toEqual([0, expect.stringContaining(`${sung.length * times} words recognised`)]);
    console.log(`${times * 10} min of sound: ${own.toFixed(0)} MiB, its recogniser ${child.toFixed(0)} MiB`);
    measured.push(own + child);
  }
  const [short = 0, long = 0] = measured;
  expect(long - short).toBeLessThan(150);
});

const HUMAN = '/usr/share/pocketsphinx/test/data/librivox';
const MODEL = process.env.LIFTSIDE_TEST_MODEL;

/** Words to put in, leave out or change, to get from one text to another, by their count. Source: Levenshtein, 1966. */
function wordErrors(said: readonly string[], heard: readonly string[]): number {
  let row = Array.from({ length: heard.length + 1 }, (_, i) => i);
  said.forEach((word, i) => {
    const next = [i + 1];
    heard.forEach((other, n) => {
      next.push(Math.min((row[n + 1] ?? 0) + 1, (next[n] ?? 0) + 1, (row[n] ?? 0) + (word === other ? 0 : 1)));
    });
    row = next;
  });
  return row.at(-1) ?? 0;
}

test('words that are wrong are counted', () => {
  const count = (said: string, heard: string) => wordErrors(said.split(' '), heard.split(' '));
  expect([count('a b c', 'a b c'), count('a b c', 'a c'), count('a b c', 'a x b d')]).toEqual([0, 1, 2]);
});

// Human speech with its text, read aloud by volunteers and given to the public: Debian's package pocketsphinx-testdata.
test.skipIf(!MODEL || !existsSync(HUMAN))(
  'human speech by a real model (LIFTSIDE_TEST_MODEL): the share of words it gets wrong',
  async () => {
    const content = await shopWith(folder.path('human'), 'title: Take\nfiles: [{file: media/a.wav}]\nrate: "25"\n');
    const utterances = (await readFile(join(HUMAN, 'transcription'), 'utf8')).split('\n').flatMap((line) => {
      const [, text = '', id = ''] = /^(?:<s> )?(.*?)(?: <\/s>)? \((.+)\)$/.exec(line.trim()) ?? [];
      return id === '' ? [] : [{ text, file: join(HUMAN, `${id}.wav`) }];
    });
    const padded = utterances.map((_, i) => `[${i}]aresample=16000,apad=pad_dur=1[p${i}]`).join(';');
    const all = utterances.map((_, i) => `[p${i}]`).join('');
    await ffmpeg(
      ...utterances.flatMap(({ file }) => ['-i', file]),
      ...['-filter_complex', `${padded};${all}concat=n=${utterances.length}:v=0:a=1[s]`, '-map', '[s]'],
      join(content, 'media/a.wav'),
    );
    const { exitCode, stderr } = await transcribe(content, resolve(MODEL ?? ''), '--language', 'en');
    expect([exitCode, stderr]).toEqual([0, expect.stringContaining('words recognised')]);
    const letters = (text: string) =>
      text
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N}' ]/gu, ' ')
        .split(/\s+/)
        .filter(Boolean);
    const said = letters(utterances.map(({ text }) => text).join(' '));
    const heard = letters((await wordsIn(content)).map(({ text }) => text).join(' '));
    const share = wordErrors(said, heard) / said.length;
    console.log(`${MODEL}: ${(share * 100).toFixed(1)} % of ${said.length} words wrong`);
    expect(share).toBeLessThan(0.5);
  },
);
