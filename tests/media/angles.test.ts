import { readFile, writeFile } from 'node:fs/promises';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { framesShown, lagOf, samples } from './compare.ts';
import { ffmpeg, stripFootage, workspace } from './make.ts';
import { render, shopWith } from './shop.ts';

/** Frame numbers of the second camera begin here, so that a number says which camera it is from. */
const SIDE = 500_000;
const FPS = 30_000 / 1001;
const RATE = '30000/1001';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
  // What was to be heard in the room: noise that swells and fades, no two stretches alike.
  const noise = 'anoisesrc=c=pink:r=48000:a=0.4:d=60:seed=3,tremolo=f=0.7:d=0.8';
  await ffmpeg('-f', 'lavfi', '-i', noise, '-c:a', 'pcm_s16le', folder.path('room.wav'));
});
afterAll(() => folder.remove());

/**
 * What a device records of the room that began at a moment of it and whose clock runs fast: it takes more samples a
 * second than it says.
 *
 * @param from s; before the room's start there is silence
 * @param fast parts per million
 */
function roomFrom(from: number, seconds: number, fast: number): string[] {
  const filters = [
    from < 0 ? `adelay=${Math.round(-from * 1000)}:all=1` : `atrim=start=${from},asetpts=PTS-STARTPTS`,
    `aresample=${Math.round(48_000 * (1 + fast / 1e6))}:filter_size=64`,
    'asetrate=48000',
    `atrim=end=${seconds}`,
  ];
  return ['-i', folder.path('room.wav'), '-filter:a', filters.join(',')];
}

/** The frame of a device that is nearest to a moment of the room. */
const nearest = (seconds: number, from: number, fast: number, fps = FPS) =>
  Math.round((seconds - from) * (1 + fast / 1e6) * fps);

const EDIT = `edit:
  - {in: "0:00:01", out: "0:00:09"}
  - {in: "0:00:09", out: "0:00:15.1", angle: side}
  - {in: "0:00:20", out: "0:00:31.3", angle: side}
  - {in: "0:00:33", out: "0:00:38"}
`;

test.each([
  ['began earlier', '-0:00:02.4', -2.4, 0],
  ['began later and has a clock that runs fast', '0:00:03.217', 3.217, 1000],
])(
  'a second camera that %s shows the right frames, and the sound goes on over the change',
  async (name, written, from, fast) => {
    const content = await shopWith(
      folder.path(name.replaceAll(' ', '-')),
      `title: Take\nfiles: [{file: media/a.mp4}]\nangles:\n  - {id: side, file: media/side.mp4, offset: "${written}", drift: ${fast}}\n${EDIT}`,
    );
    const [main, side] = [`${content}/media/a.mp4`, `${content}/media/side.mp4`];
    await stripFootage(main, { rate: RATE, frames: 1200, sound: roomFrom(0, 40, 0) });
    // Its own sound is another: were it heard, the sound would be out of step.
    const hum = ['-f', 'lavfi', '-i', 'sine=f=200:d=44'];
    await stripFootage(side, { rate: RATE, frames: 1250, first: SIDE, sound: hum });
    const { prepared, done } = await render(content, `${content}/out.mp4`);

    const shown = await framesShown(`${content}/out.mp4`);
    const wanted = prepared.kept.flatMap(({ first, count }, i) =>
      Array.from({ length: count }, (_, n) => {
        const seconds = (first + n) / FPS;
        const onSide = i === 1 || (i === 0 && first + n >= Math.round(9 * FPS));
        return onSide ? SIDE + nearest(seconds, from, fast) : first + n;
      }),
    );
    expect(prepared.kept).toHaveLength(3);
    expect(shown).toEqual(wanted);
    const copied = done.units.reduce((sum, { kind, count }) => sum + (kind === 'copy' ? count : 0), 0);
    expect(copied).toBeGreaterThan(0.7 * wanted.length);

    const [room, heard] = [await samples(folder.path('room.wav')), await samples(`${content}/out.mp4`)];
    const at = (frame: number) => Math.round((frame / FPS) * 48_000);
    for (const { first, count, at: start } of prepared.kept) {
      const into = Math.floor(count / 2);
      expect(Math.abs(lagOf(heard, at(start + into), room, at(first + into))) / 48).toBeLessThan(10);
    }
    // Eight seconds in the camera changes, and the sound knows nothing of it: as loud there as in the room.
    const level = (sound: Float32Array, from: number) =>
      Math.hypot(...sound.subarray(from - 192, from + 192)) / Math.hypot(...sound.subarray(from - 4800, from + 4800));
    const change = Math.round(9 * FPS);
    const there = at(change - prepared.kept[0]!.first);
    const lag = lagOf(heard, there - 12_000, room, at(change) - 12_000);
    expect(level(heard, there + lag) / level(room, at(change))).toBeGreaterThan(0.85);
  },
);

test('a separate sound recorder is heard in step with the picture to the end, whatever its clock', async () => {
  const content = await shopWith(
    folder.path('recorder'),
    `title: Take\nfiles: [{file: media/a.mp4}]\nsound: recorder\nangles:\n  - {id: recorder, file: media/r.wav, offset: "0:00:02.5", drift: 1000}\nedit:\n  - {in: "0:00:00.5", out: "0:00:12"}\n  - {in: "0:00:30", out: "0:00:54"}\n`,
  );
  const hum = ['-f', 'lavfi', '-i', 'sine=f=200:d=56'];
  await stripFootage(`${content}/media/a.mp4`, { rate: RATE, frames: 1678, sound: hum });
  await ffmpeg(...roomFrom(2.5, 50, 1000), '-c:a', 'pcm_s16le', `${content}/media/r.wav`);
  const { prepared } = await render(content, `${content}/out.mp4`);
  const [room, heard] = [await samples(folder.path('room.wav')), await samples(`${content}/out.mp4`)];
  const lags = [4, 7, 10.9, 30.5, 36, 42, 48, 51].map((moment) => {
    const run = prepared.kept.findLast(({ first }) => first / FPS <= moment)!;
    const programme = moment - run.first / FPS + run.at / FPS;
    return lagOf(heard, Math.round(programme * 48_000), room, Math.round(moment * 48_000)) / 48;
  });
  for (const lag of lags) expect(Math.abs(lag)).toBeLessThan(10);
  // Both of the recorder's ends are apart by 50 ms of drift; what is left of it is under 2 ms within a range.
  expect(Math.abs(lags[7]! - lags[3]!)).toBeLessThan(2);
  // Before the recorder began the camera's own sound is heard.
  const own = heard.subarray(24_000, 72_000);
  const crossings = own.reduce((n, value, i) => n + (i > 0 && value >= 0 && own[i - 1]! < 0 ? 1 : 0), 0);
  expect(crossings).toBe(200);
});

test('a camera of another rate and size is brought to the recording, each time its nearest frame', async () => {
  const content = await shopWith(
    folder.path('other-rate'),
    `title: Take\nfiles: [{file: media/a.mp4}]\nangles:\n  - {id: side, file: media/side.mp4, offset: "0:00:01.013", drift: 500}\nedit:\n  - {in: "0:00:02", out: "0:00:04"}\n  - {in: "0:00:08", out: "0:00:28", angle: side}\n`,
  );
  await stripFootage(`${content}/media/a.mp4`, { rate: RATE, frames: 900 });
  await stripFootage(`${content}/media/side.mp4`, { rate: '25', frames: 720, first: SIDE, size: [640, 360] });
  const { prepared } = await render(content, `${content}/out.mp4`);
  const shown = await framesShown(`${content}/out.mp4`);
  const run = prepared.kept[1]!;
  const wrong: string[] = [];
  for (let n = 0; n < run.count; n++) {
    const seconds = (run.first + n) / FPS;
    const found = (shown[run.at + n] ?? 0) - SIDE;
    // Shown is the last frame that lies at most half a frame of the recording ahead.
    const wanted = Math.floor((seconds - 1.013 + 0.5 / FPS) * 1.0005 * 25 + 1e-3);
    if (found !== wanted) wrong.push(`${n}: ${found} instead of ${wanted}`);
  }
  expect(wrong).toEqual([]);
});

test('what cannot be shown is refused before work begins, and what an angle lacks the recording itself shows', async () => {
  const body = (angle: string, more = '') =>
    `title: Take\nfiles: [{file: media/a.mp4}]\nangles:\n  - {id: side, file: media/side.mp4${more}}\nedit:\n  - {in: "0:00:02", out: "0:00:10", angle: ${angle}}\n`;
  const shop = async (name: string, text: string) => {
    const content = await shopWith(folder.path(name), text);
    await stripFootage(`${content}/media/a.mp4`, { rate: '25', frames: 300 });
    await stripFootage(`${content}/media/side.mp4`, { rate: '25', frames: 100, first: SIDE });
    return content;
  };
  const unknown = await shop('unknown', body('sied'));
  await expect(render(unknown, `${unknown}/out.mp4`)).rejects.toThrow(/no angle "sied"/);
  const open = await shop('open', body('side'));
  await expect(render(open, `${open}/out.mp4`)).rejects.toThrow(/begins is not known/);
  const short = await shop('short', body('side', ', offset: "0:00:04"'));
  const { prepared } = await render(short, `${short}/out.mp4`);
  expect(prepared.warnings.join()).toMatch(/side did not run for 4 s/);
  const shown = await framesShown(`${short}/out.mp4`);
  expect(shown).toEqual(Array.from({ length: 200 }, (_, i) => (i >= 50 && i < 150 ? SIDE + i - 50 : 50 + i)));
});

test('align writes where a camera began before the recording, check is then content, and the page says what it cannot show', async () => {
  const recording = `title: Take
files: [{file: media/a.mp4}]
people: [{role: instructor, release: on-file}]
angles:
  - id: side   # on the bench
    file: media/side.mp4
edit:
  - {in: "0:00:05", out: "0:00:15"}
  - {in: "0:00:15", out: "0:00:40", angle: side}
`;
  const content = await shopWith(folder.path('align'), recording, {
    'lessons/lesson.mdx':
      '---\ntitle: Lesson\nrecording: take\nmachine: bench\n---\n## Chapter\n<Cue at="0:00:05" />\n\n### Step\n<Cue at="0:00:06" />\nLook.\n',
    'specs/bench.yaml': 'machine: {title: Bench, years: 2020-2025}\nspecs: []\n',
  });
  // Its picture begins 3.2 s before the recording, and its sound another half second after its picture.
  const sound = ['-itsoffset', '0.5', ...roomFrom(2.3, 50, 0)];
  await stripFootage(`${content}/media/a.mp4`, { rate: '25', frames: 1250, sound: roomFrom(5, 50, 0) });
  await stripFootage(`${content}/media/side.mp4`, { rate: '25', frames: 1300, first: SIDE, sound });
  const liftside = async (...args: string[]) =>
    execa(process.execPath, ['src/node/cli/liftside.mjs', ...args, '--content', content], { reject: false });
  const file = `${content}/recordings/take.yaml`;

  expect((await liftside('check')).stdout).toContain('angle-not-aligned');
  const refused = await liftside('render', 'take');
  expect([refused.exitCode, refused.stderr]).toEqual([3, expect.stringContaining('liftside align take --write')]);
  const proposed = await liftside('align', 'take');
  expect(proposed.stdout).toMatch(/^side \(media\/side\.mp4\): begins at -0:00:03\.(19|20|2)/);
  expect(await readFile(file, 'utf8')).toBe(recording);

  expect((await liftside('align', 'take', '--write')).exitCode).toBe(0);
  const written = await readFile(file, 'utf8');
  const [, offset = ''] =
    /id: side {3}# on the bench\n {4}file: media\/side.mp4\n {4}offset: "?-0:00:0([\d.]+)/.exec(written) ?? [];
  expect(Math.abs(Number(offset) - 3.2)).toBeLessThan(0.005);
  expect((await liftside('check')).stdout).not.toContain('angle-');
  expect((await liftside('align', 'take')).stdout).toContain('so it is written');

  const page = async () => {
    const built = await liftside('build', '--footage', 'uncut', '--to', folder.path('site'));
    expect([built.exitCode, built.exitCode === 0 || built.stderr]).toEqual([0, true]);
    return readFile(folder.path('site/lessons/lesson/index.html'), 'utf8');
  };
  expect(await page()).toContain('brings in: side.');
  expect((await liftside('render', 'take')).exitCode).toBe(0);
  expect(await page()).not.toContain('brings in');
  const shown = await framesShown(`${content}/.liftside/rendered/take/programme.mp4`);
  expect(shown[249]).toBe(5 * 25 + 249);
  expect(shown[250]).toBe(SIDE + Math.round((15 + Number(offset)) * 25));
  // Another place of the angle is another programme.
  await writeFile(file, written.replace(/-0:00:0[\d.]+/, '-0:00:03.6'));
  expect(await page()).toContain('brings in: side.');
});
