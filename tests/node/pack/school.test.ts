import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { crc32, inflateRawSync } from 'node:zlib';
import { expect, onTestFinished, test } from 'vitest';
import { packageContents } from '../../../src/core/pack/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { writeZip } from '../../../src/node/pack/index.ts';
import { schoolManifest } from '../../../src/node/pack/school.ts';

/**
 * Reads a zip file from its first byte on, as readers of a stream do: without its directory, each entry by its own header
 * (PKWARE APPNOTE 4.3.7, 4.3.9). Such a reader cannot know where a stored entry ends whose length comes after it.
 */
function streamed(zip: Buffer): Map<string, Buffer> {
  const found = new Map<string, Buffer>();
  let at = 0;
  while (zip.readUInt32LE(at) === 0x04034b50) {
    const [flags, method] = [zip.readUInt16LE(at + 6), zip.readUInt16LE(at + 8)];
    const [nameLength, extra] = [zip.readUInt16LE(at + 26), zip.readUInt16LE(at + 28)];
    const name = zip.toString('utf8', at + 30, at + 30 + nameLength);
    at += 30 + nameLength + extra;
    if (method === 0 && (flags & 8) !== 0) throw new Error(`${name} is stored, and its length comes after it`);
    const { buffer, engine } = inflateRawSync(zip.subarray(at), { info: true }) as unknown as {
      buffer: Buffer;
      engine: { bytesWritten: number };
    };
    at += engine.bytesWritten;
    if (zip.readUInt32LE(at) !== 0x08074b50) throw new Error(`${name} has no sum after it`);
    if (zip.readUInt32LE(at + 4) !== crc32(buffer)) throw new Error(`${name} has another sum`);
    at += 16;
    found.set(name, buffer);
  }
  return found;
}

test('a zip file for a school is read by one that reads from its first byte on; a plain one is not', async () => {
  const cwd = mkdtempSync(join(tmpdir(), 'liftside-school-'));
  onTestFinished(() => rmSync(cwd, { recursive: true }));
  const film = Buffer.from(Array.from({ length: 200_000 }, (_, i) => (i * i) % 251));
  writeFileSync(join(cwd, 'film.mp4'), film);
  const manifest = Buffer.from('<manifest/>');
  const entries = [
    { path: 'imsmanifest.xml', bytes: manifest.length, from: { bytes: manifest } },
    { path: 'film/chain.mp4', bytes: film.length, from: { file: join(cwd, 'film.mp4') } },
  ];
  const wishes = { content: '/nowhere', signal: new AbortController().signal, wrote: () => {} };
  await writeZip(entries, { ...wishes, to: join(cwd, 'school.zip'), pressAll: true });
  const read = streamed(readFileSync(join(cwd, 'school.zip')));
  expect([...read.keys()]).toEqual(['imsmanifest.xml', 'film/chain.mp4', 'files.txt']);
  expect(read.get('film/chain.mp4')?.equals(film)).toBe(true);
  await writeZip(entries, { ...wishes, to: join(cwd, 'plain.zip') });
  expect(() => streamed(readFileSync(join(cwd, 'plain.zip')))).toThrow('film/chain.mp4 is stored');
});

test('the demo’s class is a course of two lessons, by addresses of its site', async () => {
  const { shop, texts } = await loadShop(resolve('content'));
  const contents = packageContents(shop, texts.keys(), 'chain-saturday');
  if (!contents.ok) throw new Error(contents.problem);
  const text = ({ from }: ReturnType<typeof schoolManifest>) =>
    'bytes' in from ? Buffer.from(from.bytes).toString() : '';
  const cmi5 = schoolManifest('cmi5', contents.value, shop, []);
  expect(cmi5.path).toBe('cmi5.xml');
  expect([...text(cmi5).matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)).toEqual([
    'https://millrace.example/classes/chain-saturday/#course',
    ...contents.value.lessons.map(({ id }) => `https://millrace.example/lessons/${id}/`),
  ]);
  const { site: _, ...info } = shop.info;
  const nameless = schoolManifest('cmi5', contents.value, { ...shop, info }, []);
  // RFC 9562, version 8: a name of its own making.
  for (const [, id] of text(nameless).matchAll(/ id="([^"]+)"/g))
    expect(id).toMatch(/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-a[0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(text(nameless)).toBe(text(schoolManifest('cmi5', contents.value, { ...shop, info }, [])));
  expect(text(schoolManifest('scorm12', contents.value, shop, []))).toContain('href="pages/lessons/chain/index.html"');
});
