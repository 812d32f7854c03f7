import { afterAll, beforeAll, expect, test } from 'vitest';
import { sharesOf } from '../../src/core/media/index.ts';
import { runtime, toSeconds } from '../../src/core/time/index.ts';
import { probeFile } from '../../src/node/media/probe.ts';
import { decode, lagOf, nearestFrame, samples } from './compare.ts';
import { ffmpeg, testPicture, workspace } from './make.ts';
import { render, shopWith } from './shop.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

/** Noise that swells and fades: no two stretches of it are alike. */
const noise = (seconds: number, seed = 1) => [
  '-f',
  'lavfi',
  '-i',
  `anoisesrc=c=pink:r=48000:a=0.3:d=${seconds}:seed=${seed},tremolo=f=0.7:d=0.8`,
];

const EDIT = `edit:
  - {in: "0:00:01.3", out: "0:00:05.4"}
  - {in: "0:00:07.05", out: "0:00:13.9"}
  - {in: "0:00:14.2", out: "0:00:14.6"}
  - {in: "0:00:17.6", out: "0:00:24.9"}
  - {in: "0:00:26", out: "0:00:30.52"}
`;

// Every frame of the programme is held against ffmpeg's own decoding of the source.
test.each([
  ['with B pictures', '30000/1001', 'mp4', ['-preset', 'veryfast', '-g', '45'], true],
  ['without B pictures', '25', 'mp4', ['-preset', 'ultrafast', '-bf', '0', '-g', '25'], true],
  ['in Matroska', '25', 'mkv', ['-preset', 'veryfast', '-g', '30'], true],
  [
    'with open groups',
    '30000/1001',
    'mp4',
    ['-preset', 'veryfast', '-g', '30', '-x264-params', 'open-gop=1:b-pyramid=2'],
    false,
  ],
])('each frame is the right one, and sound is in step: H.264 %s', async (name, rate, kind, coding, copies) => {
  const content = await shopWith(
    folder.path(name.replaceAll(' ', '-')),
    `title: Take\nfiles: [{file: media/a.${kind}}]\n${EDIT}`,
  );
  const source = `${content}/media/a.${kind}`;
  const output = `${content}/out.mp4`;
  await ffmpeg(...testPicture('320x180', rate, 30.52), ...noise(30.52), ...coding, '-c:a', 'aac', source);
  const { prepared, done } = await render(content, output);

  const facts = await probeFile(output);
  const frame = prepared.rate.ticksPerFrame;
  if (!facts.ok) throw new Error(facts.problem);
  expect(Math.abs(facts.value.duration - runtime(prepared.recording.edit))).toBeLessThanOrEqual(frame);

  const [was, is] = await Promise.all([decode(source), decode(output)]);
  const wrong: string[] = [];
  let same = 0;
  for (const unit of done.units)
    for (let i = 0; i < unit.count; i++) {
      const [from, at] = [unit.first + i, unit.at + i];
      const found = nearestFrame(is.small[at]!, was, from);
      if (found !== from) wrong.push(`${at} shows ${found} instead of ${from} (${unit.kind})`);
      if (unit.kind === 'copy' && is.hashes[at] !== was.hashes[from]) wrong.push(`${at} is not a copy of ${from}`);
      if (is.hashes[at] === was.hashes[from]) same++;
    }
  expect(wrong).toEqual([]);
  expect(is.small).toHaveLength(facts.value.duration / frame);
  const shares = sharesOf(done.units);
  if (copies) expect(same).toBeGreaterThanOrEqual(shares.copied);
  expect(shares.copied > shares.encoded).toBe(copies);

  const [heardWas, heardIs] = await Promise.all([samples(source), samples(output)]);
  const lags = prepared.kept
    .filter(({ count }) => count > 60)
    .map(({ first, count, at }) => {
      const sample = (n: number) => Math.round(toSeconds(n * frame) * 48_000);
      const into = Math.floor(count / 2);
      return lagOf(heardIs, sample(at + into), heardWas, sample(first + into)) / 48;
    });
  for (const lag of lags) expect(Math.abs(lag)).toBeLessThan(10);
});
