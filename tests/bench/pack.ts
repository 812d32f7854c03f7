/**
 * What packing costs: the time of a zip file against that of Info-ZIP's `zip -0` over the same files, five times in
 * turn, that of a processor too, and the peak memory of the process that packs:
 *
 *     npx node tests/bench/pack.ts [megabytes, 1000 when left out] [rounds, 5]
 */
import { mkdtemp, open, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';
import { writeZip } from '../../src/node/pack/index.ts';

const [megabytes = '1000', rounds = '5', child] = process.argv.slice(2);
const PARTS = 3;
const ROUNDS = Number(rounds);

async function pack(folder: string): Promise<void> {
  const entries = await Promise.all(
    Array.from({ length: PARTS }, async (_, i) => {
      const file = join(folder, `film-${i}.mp4`);
      return { path: `film/film-${i}.mp4`, bytes: (await stat(file)).size, from: { file } };
    }),
  );
  const wishes = { to: join(folder, 'packed.zip'), content: '/nowhere', signal: new AbortController().signal };
  const began = performance.now();
  const before = process.cpuUsage();
  await writeZip(entries, { ...wishes, wrote: () => {} });
  const { user, system } = process.cpuUsage(before);
  const seconds = (performance.now() - began) / 1000;
  // Kibibytes, as getrusage(2) has them on Linux.
  const peak = process.resourceUsage().maxRSS * 1024;
  console.log(JSON.stringify({ seconds, cpu: (user + system) / 1e6, peak }));
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
    const names = Array.from({ length: PARTS }, (_, i) => `film-${i}.mp4`);
    const times: { ours: number; oursCpu: number; zip: number; zipCpu: number }[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      const { stdout } = await execa(process.execPath, [import.meta.filename, megabytes, rounds, folder]);
      const { seconds, cpu, peak } = JSON.parse(stdout) as { seconds: number; cpu: number; peak: number };
      await rm(join(folder, 'packed.zip'));
      const began = performance.now();
      const line = `TIMEFORMAT='%U %S'; time zip -0 -q other.zip ${names.join(' ')}`;
      const { stderr } = await execa('bash', ['-c', line], { cwd: folder });
      const zip = (performance.now() - began) / 1000;
      const [user = 0, system = 0] = stderr.trim().split(' ').map(Number);
      await rm(join(folder, 'other.zip'));
      times.push({ ours: seconds, oursCpu: cpu, zip, zipCpu: user + system });
      console.log(
        `${megabytes} MB: packed in ${seconds.toFixed(1)} s (${cpu.toFixed(1)} s of a processor), zip -0 in ${zip.toFixed(1)} s (${(user + system).toFixed(1)} s), ratio ${(seconds / zip).toFixed(2)}, peak memory ${Math.round(peak / 1e6)} MB`,
      );
    }
    const middle = (ratios: readonly number[]) => ratios.toSorted((a, b) => a - b)[Math.floor(ROUNDS / 2)]?.toFixed(2);
    console.log(
      `middle ratio ${middle(times.map(({ ours, zip }) => ours / zip))}, of processor time ${middle(times.map(({ oursCpu, zipCpu }) => oursCpu / zipCpu))}`,
    );
  } finally {
    await rm(folder, { recursive: true });
  }
}

await (child === undefined ? compare() : pack(child));
