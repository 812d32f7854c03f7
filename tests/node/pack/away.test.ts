import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { TICKS_PER_SECOND } from '../../../src/core/time/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { findRendered, manifestSchema } from '../../../src/node/media/rendered.ts';
import { travellingManifest } from '../../../src/node/pack/travelling.ts';

const FACTS = { duration: 1200 * TICKS_PER_SECOND, framesPerSecond: 25, width: 640, height: 360 };

/** The sound small shop as it is after a package with the finished programme of its recording was unpacked. */
async function unpacked(parts = [{ length: 10, bytes: 4 }]) {
  const content = mkdtempSync(join(tmpdir(), 'liftside-away-'));
  onTestFinished(() => rmSync(content, { recursive: true }));
  const write = (file: string, text: string) => {
    mkdirSync(dirname(join(content, file)), { recursive: true });
    writeFileSync(join(content, file), text);
  };
  for (const [file, text] of Object.entries(SOUND_SHOP)) write(file, text);
  write('media/chain.vtt', 'WEBVTT\n');
  const [bare] = (await loadShop(content)).shop.recordings;
  if (!bare) throw new Error('no recording');
  const known = {
    ...bare,
    files: bare.files.map((file) => ({ ...file, facts: { state: 'media' as const, media: FACTS } })),
  };
  const edit = await editOf(write, content, known);
  const manifest = manifestSchema.parse({
    ...{ version: 1, recording: 'chain', edit, inputs: [{ file: 'media/chain.mp4', content: 'f00' }] },
    ...{
      length: 10,
      frame: 1,
      files: { programme: { name: 'programme.mp4', bytes: 4 }, poster: { name: 'p.jpg', bytes: 1 } },
    },
  });
  write('.liftside/rendered/chain/manifest.json', travellingManifest(known, manifest, parts));
  const names = parts.length === 1 ? ['programme.mp4'] : parts.map((_, i) => `programme-${i + 1}.mp4`);
  for (const name of names) write(`.liftside/rendered/chain/${name}`, 'film');
  return { content, write };
}

/** The edit list as it is once the length of the camera file is known. */
async function editOf(
  write: (file: string, text: string) => void,
  content: string,
  known: Parameters<typeof travellingManifest>[0],
) {
  const files = { programme: { name: 'programme.mp4', bytes: 4 } };
  const first = manifestSchema.parse({
    version: 1,
    recording: 'chain',
    edit: [],
    inputs: [],
    length: 1,
    frame: 1,
    files,
  });
  write('.liftside/rendered/chain/manifest.json', travellingManifest(known, first, [{ length: 1, bytes: 4 }]));
  const [recording] = (await loadShop(content)).shop.recordings;
  return (recording?.edit ?? []).map(({ start, end }) => [start, end]);
}

test('camera files that stayed elsewhere keep their times, it is told, and the programme that came plays', async () => {
  const { content } = await unpacked();
  const { shop, notes } = await loadShop(content);
  expect(shop.recordings[0]?.files[0]?.facts).toEqual({ state: 'media', media: FACTS });
  expect(shop.recordings[0]?.length).toBe(FACTS.duration);
  expect(notes).toEqual([expect.stringMatching(/^media\/chain\.mp4 stayed in the shop it was taken in/)]);
  const [recording] = shop.recordings;
  expect(recording && (await findRendered(content, recording))).toMatchObject({
    parts: [{ file: expect.stringContaining('programme.mp4'), length: 10 }],
  });
});

test('a programme that came in several files plays from them all, and not from some', async () => {
  const parts = [
    { length: 7, bytes: 4 },
    { length: 3, bytes: 4 },
  ];
  const { content } = await unpacked(parts);
  const [recording] = (await loadShop(content)).shop.recordings;
  if (!recording) throw new Error('no recording');
  expect((await findRendered(content, recording))?.parts).toEqual([
    { file: join(content, '.liftside/rendered/chain/programme-1.mp4'), length: 7 },
    { file: join(content, '.liftside/rendered/chain/programme-2.mp4'), length: 3 },
  ]);
  rmSync(join(content, '.liftside/rendered/chain/programme-2.mp4'));
  expect(await findRendered(content, recording)).toBeUndefined();
});

test('where a camera file of the name is there, it counts: the programme was not made from it', async () => {
  const { content, write } = await unpacked();
  write('media/chain.mp4', 'another film');
  const { shop, notes } = await loadShop(content);
  expect(notes).toEqual([]);
  expect(shop.recordings[0]?.files[0]?.facts.state).toBe('unreadable');
  const [recording] = shop.recordings;
  expect(recording && (await findRendered(content, recording))).toBeUndefined();
});

test('another edit list is another programme', async () => {
  const { content, write } = await unpacked();
  write(
    'recordings/chain.yaml',
    `${SOUND_SHOP['recordings/chain.yaml']?.replace(/edit:[\s\S]*?(?=\n\w|$)/, '')}\nedit:\n  - {in: "0:00:01", out: "0:00:02"}\n`,
  );
  const [recording] = (await loadShop(content)).shop.recordings;
  expect(recording && (await findRendered(content, recording))).toBeUndefined();
});
