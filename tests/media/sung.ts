import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { analyseRecording } from '../../src/node/media/analyse.ts';
import { Progress, SILENT } from '../../src/node/media/progress.ts';
import { Store } from '../../src/node/media/store.ts';
import { sing, wavOf } from '../support/tone-network.ts';
import { ffmpeg } from './make.ts';
import { recordingIn, shopWith, tools } from './shop.ts';

/** A shop whose one recording sings words as tones, looked through by loudness: no network for speech takes them for it. */
export async function shopThatSings(
  path: (name: string) => string,
  name: string,
  words: Parameters<typeof sing>[0],
  seconds: number,
  times = 1,
) {
  const file = times > 1 ? 'a.flac' : 'a.wav';
  const content = await shopWith(path(name), `title: Take\nfiles: [{file: media/${file}}]\nrate: "25"\n`);
  const { samples, sung } = sing(words, seconds);
  await writeFile(join(content, 'media/a.wav'), wavOf(samples));
  if (times > 1)
    await ffmpeg('-stream_loop', String(times - 1), '-i', join(content, 'media/a.wav'), join(content, 'media', file));
  const store = await Store.open(content);
  const { signal } = new AbortController();
  const place = { tools: await tools(), store, signal, progress: new Progress(SILENT), listener: null };
  await analyseRecording(content, await recordingIn(content), place);
  await store.close();
  return { content, sung };
}
