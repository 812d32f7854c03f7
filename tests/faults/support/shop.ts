import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { execa } from 'execa';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';

/** The sound sample shop on disk, with ten minutes of footage drawn by ffmpeg. */
export async function filmedShop(content: string): Promise<void> {
  const { texts } = sampleContent(SOUND);
  for (const [file, text] of texts) {
    await mkdir(dirname(join(content, file)), { recursive: true });
    await writeFile(join(content, file), text);
  }
  await film(join(content, 'media/chain.mp4'), 600);
}

/** Footage of so many seconds. */
export async function film(path: string, seconds: number, colour = 'navy'): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  await execa('ffmpeg', [
    ...['-v', 'error', '-y', '-f', 'lavfi', '-i', `color=c=${colour}:s=160x90:r=30000/1001:d=${seconds}`],
    ...['-f', 'lavfi', '-i', `sine=frequency=330:duration=${seconds}`],
    ...[
      '-c:v',
      'libx264',
      '-preset',
      'ultrafast',
      '-g',
      '60',
      '-pix_fmt',
      'yuv420p',
      '-c:a',
      'aac',
      '-b:a',
      '24k',
      path,
    ],
  ]);
}
