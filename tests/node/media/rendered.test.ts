import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { fingerprint } from '../../../src/node/media/fingerprint.ts';
import { findRendered, MANIFEST, type Manifest, renderedFolder } from '../../../src/node/media/rendered.ts';
import { smallShop } from '../../support/shop.ts';

// A rendered programme is shown only while it is what the content says: another edit, camera file or card, or half a file, is none.

const { recording } = smallShop();
let content: string;
let folder: string;
let camera: string;
beforeEach(async () => {
  content = await mkdtemp(join(tmpdir(), 'liftside-rendered-'));
  folder = renderedFolder(content, recording.id);
  camera = join(content, 'media/chain.mp4');
  await mkdir(join(content, 'media'));
  await mkdir(folder, { recursive: true });
  await writeFile(camera, 'what the camera wrote');
  await writeFile(join(folder, 'chain.mp4'), 'programme');
});
afterEach(() => rm(content, { recursive: true, force: true }));

async function written(more: Partial<Manifest> = {}): Promise<void> {
  const manifest: Manifest = {
    version: 1,
    recording: recording.id,
    edit: recording.edit.map(({ start, end }): [number, number] => [start, end]),
    inputs: [{ file: 'media/chain.mp4', content: await fingerprint(camera) }],
    length: 1,
    frame: 1,
    files: { programme: { name: 'chain.mp4', bytes: 9 } },
    ...more,
  };
  await writeFile(join(folder, MANIFEST), JSON.stringify(manifest));
}
const found = (cards?: string) => findRendered(content, recording, cards);

test('as the content says, it is found with what was made', async () => {
  await written();
  expect(await found()).toMatchObject({
    folder,
    parts: [{ file: join(folder, 'chain.mp4'), length: expect.any(Number) }],
  });
  expect(await found()).not.toHaveProperty('poster');
  await writeFile(join(folder, 'p.jpg'), 'x');
  const programme = { name: 'chain.mp4', bytes: 9 };
  const small = { name: 'p.jpg', bytes: 1 };
  await written({ files: { programme, poster: small, 'seek-pictures': small, sheet: small, hls: small } });
  const path = join(folder, 'p.jpg');
  expect(await found()).toMatchObject({ poster: path, hls: path, seekPictures: { text: path, sheet: path } });
  await written({ files: { programme, 'seek-pictures': small } });
  expect(await found()).not.toHaveProperty('seekPictures');
});

test('with cards burnt in it lies apart', async () => {
  await written({ cards: 'c1' });
  expect(await found()).toBeUndefined();
  folder = renderedFolder(content, recording.id, true);
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'chain.mp4'), 'programme');
  await written({ cards: 'c1' });
  expect(await found('c1')).toMatchObject({ folder });
  expect(await found('c2')).toBeUndefined();
});

const [[start, end] = [0, 0], ...others] = recording.edit.map((each): [number, number] => [each.start, each.end]);
test.each<[string, Partial<Manifest>]>([
  ['another in point', { edit: [[start + 1, end], ...others] }],
  ['another out point', { edit: [[start, end - 1], ...others] }],
  ['a range less', { edit: others }],
  ['a range more', { edit: [[start, end], ...others, [9e12, 9e12 + 1]] }],
  ['an angle that is not used any more', { angles: 'a1' }],
  ['another camera file', { inputs: [{ file: 'media/other.mp4', content: 'x' }] }],
  ['no camera file', { inputs: [] }],
  ['nothing made', { files: {} }],
  ['half a file', { files: { programme: { name: 'chain.mp4', bytes: 10 } } }],
  ['a file that is gone', { files: { programme: { name: 'gone.mp4', bytes: 9 } } }],
])('made with %s, it is none', async (_, more) => {
  await written(more);
  expect(await found()).toBeUndefined();
});

test('made from what the camera file was before, it is none', async () => {
  await written();
  await writeFile(camera, 'what the camera wrote then');
  expect(await found()).toBeUndefined();
  await rm(camera);
  expect(await found()).toBeUndefined();
});

test.each(['', '{', '{"version": 2}'])('with "%s" beside it, it is none', async (text) => {
  await writeFile(join(folder, MANIFEST), text);
  expect(await found()).toBeUndefined();
});
