import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readLooks, writeLooks } from '../../../src/node/words/looks-file.ts';
import { atPauses, readWav, toHeardRate } from '../../../src/node/words/speak.ts';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('what cannot be laid is told before anything is done, and nothing is written', async () => {
  const content = shopFolder();
  const recording = readFileSync(join(content, 'recordings/chain.yaml'), 'utf8');
  const said = async (...words: string[]) => {
    const { code, said } = await call(['transcribe', ...words], { content, env: { PATH: '' }, cwd: content });
    return [code, said];
  };
  expect(await said('chian', '--words', 'a.txt')).toEqual([2, expect.stringContaining('"chain"')]);
  expect(await said('chain')).toEqual([2, expect.stringContaining('--words')]);
  expect(await said('chain', '--words', 'none.txt')).toEqual([2, 'none.txt cannot be read']);
  writeFileSync(join(content, 'sounds.txt'), '[tapping]\n- - -\n');
  expect(await said('chain', '--words', 'sounds.txt')).toEqual([2, 'sounds.txt has no words']);
  writeFileSync(join(content, 'said.txt'), 'Now we look.\n');
  expect(await said('chain', '--words', 'said.txt')).toEqual([
    3,
    expect.stringContaining('espeak-ng is not installed'),
  ]);
  expect(readFileSync(join(content, 'recordings/chain.yaml'), 'utf8')).toBe(recording);
});

test('looks come back from their file part by part', () => {
  const parts = [Float32Array.of(1, 2.5, -3), new Float32Array(0), Float32Array.of(0.25)];
  expect(readLooks(writeLooks(parts))).toEqual(parts);
  expect(readLooks(writeLooks([]))).toEqual([]);
});

test('sound of another rate is brought to that of the looks', () => {
  const wav = Buffer.alloc(44 + 2 * 8000);
  wav.write('data', 36);
  wav.writeUInt32LE(8000, 24);
  for (let i = 0; i < 8000; i++) wav.writeInt16LE(i % 2 === 0 ? 8192 : -8192, 44 + 2 * i);
  const samples = toHeardRate(readWav(wav));
  expect(samples).toHaveLength(16_000);
  expect([...samples.subarray(0, 4)]).toEqual([0.25, 0, -0.25, 0]);
  expect(readWav(Buffer.from('no sound')).samples).toHaveLength(0);
});

test('spoken sentences part at their pauses, and their silence goes', () => {
  const rate = 1000;
  const samples = new Int16Array(6000);
  for (const [from, until] of [
    [500, 700],
    [800, 1000],
    [4000, 4100],
  ])
    samples.fill(2000, from, until);
  const lengths = (least: number) => atPauses({ samples, rate }, least).map((part) => part.samples.length);
  expect(lengths(1.5)).toEqual([500, 100]);
  expect(lengths(0.05)).toEqual([200, 200, 100]);
  expect(lengths(Number.POSITIVE_INFINITY)).toEqual([3600]);
  // Softer than 0.005 of the loudest there can be, which is 163 of 32 768.
  expect(atPauses({ samples: new Int16Array(10).fill(163), rate }, 1)).toEqual([]);
  expect(atPauses({ samples: new Int16Array(10).fill(-164), rate }, 1)).toHaveLength(1);
});
