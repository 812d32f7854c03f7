import { mkdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { bitRates, hlsArgs, ladderFor, readMediaPlaylist, withBitRates } from '../../core/media/index.ts';
import { runFfmpeg, type Watch } from './ffmpeg.ts';
import type { Tools } from './tools.ts';

/**
 * Makes the HLS ladder of a programme: `hls.m3u8` in the folder, and a folder a rung.
 *
 * @param size of the picture as shown, pixels
 */
export async function makeHls(
  programme: string,
  folder: string,
  about: { readonly size: { readonly width: number; readonly height: number }; readonly hasSound: boolean },
  tools: Tools,
  watch: Watch,
): Promise<void> {
  await mkdir(folder);
  await runFfmpeg(tools, hlsArgs(programme, ladderFor(about.size), about.hasSound, '.'), { ...watch, cwd: folder });
  const master = await readFile(join(folder, 'hls.m3u8'), 'utf8');
  const lists = master.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  const rates = await Promise.all(lists.map((list) => measure(join(folder, list))));
  await writeFile(join(folder, 'hls.m3u8'), withBitRates(master, rates));
}

/** ffmpeg writes down what it was asked for; a player needs what came of it. */
async function measure(list: string): Promise<{ peak: number; mean: number }> {
  const { target, segments } = readMediaPlaylist(await readFile(list, 'utf8'));
  const sized = segments.map(async ({ name, seconds }) => ({
    seconds,
    bytes: (await stat(join(dirname(list), name))).size,
  }));
  return bitRates(target, await Promise.all(sized));
}
