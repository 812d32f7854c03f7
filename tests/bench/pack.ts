/**
 * What packing costs: the time of a zip file against that of Info-ZIP's `zip -0` over the same files, three times in
 * turn, and the peak memory of the process that packs:
 *
 *     npx node tests/bench/pack.ts [megabytes, 1000 when left out]
 */
import { mkdtemp, open, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';
import { writeZip } from '../../src/node/pack/index.ts';

const [megabytes = '1000', child] = process.argv.slice(2);
const PARTS = 3;

async function pack(folder: string): Promise<void> {
  const entries = await Promise.all(
    Array.from({ length: PARTS }, async (_, i) => {
      const file = join(folder, `film-${i}.mp4`);
      return { path: `film/film-${i}.mp4`, bytes: (await stat(file)).size, from: { file } };
    }),
  );
  const wishes = { to: join(folder, 'packed.zip'), content: '/nowhere', signal: new AbortController().signal };
  const began = performance.now();
  await writeZip(entries, { ...wishes, wrote: () => {} });
  // Kibibytes, as getrusage(2) has them on Linux.
  console.log(
    JSON.stringify({ seconds: (performance.now() - began) / 1000, peak: process.resourceUsage().maxRSS * 1024 }),
  );
}

async function compare(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'liftside-pack-'));
  try {
    for (let i = 0; i < PARTS; i++) {
      const file = await open(join(folder, `film-${i}.mp4`), 'w');
      const piece = Buffer.alloc(1_000_000);
      for (let at = 0; at < piece.length; at++) piece[at] = (at * 2654435761 + i) >>> 13;
      for (let n = 0; n < Number(megabytes) / PARTS; n++) {
        piece.writeUInt32LE(n, 0);
        await file.write(piece);
      }
      await file.close();
    }
    const times: { ours: number; zip: number; peak: number }[] = [];
    for (let round = 0; round < 3; round++) {
      const { stdout } = await execa(process.execPath, [import.meta.filename, megabytes, folder]);
      const { seconds, peak } = JSON.parse(stdout) as { seconds: number; peak: number };
      await rm(join(folder, 'packed.zip'));
      const began = performance.now();
      const names = Array.from({ length: PARTS }, (_, i) => `film-${i}.mp4`);
      await execa('zip', ['-0', '-q', 'other.zip', ...names], { cwd: folder });
      times.push({ ours: seconds, zip: (performance.now() - began) / 1000, peak });
      await rm(join(folder, 'other.zip'));
    }
    for (const { ours, zip, peak } of times)
      console.log(
        `${megabytes} MB: packed in ${ours.toFixed(1)} s, zip -0 in ${zip.toFixed(1)} s, ratio ${(ours / zip).toFixed(2)}, peak memory ${Math.round(peak / 1e6)} MB`,
      );
    const ratios = times.map(({ ours, zip }) => ours / zip).toSorted((a, b) => a - b);
    console.log(`middle ratio ${ratios[1]?.toFixed(2)}`);
  } finally {
    await rm(folder, { recursive: true });
  }
}

await (child === undefined ? compare() : pack(child));
