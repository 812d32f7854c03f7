import { rm } from 'node:fs/promises';
import { z } from 'zod';
import { soundComesEarly, type WebmForm, webmArgs, webmTrialArgs } from '../../core/media/index.ts';
import { runFfmpeg, runFfprobe, type Watch } from './ffmpeg.ts';
import type { Workplace } from './pool.ts';

/** Makes the VP9 or AV1 version of a programme, its sound in step with the picture whatever the release of ffmpeg. */
export async function makeWebm(
  programme: string,
  form: Omit<WebmForm, 'early'>,
  output: string,
  place: Workplace,
  watch: Watch,
): Promise<void> {
  const early = form.hasSound && (await tryOut(form.encoder, place));
  await runFfmpeg(place.tools, webmArgs(programme, { ...form, early }, output), watch);
}

const packets = z.looseObject({
  packets: z.array(z.looseObject({ codec_type: z.string(), pts_time: z.coerce.number() })),
});

async function tryOut(encoder: string, { tools, store, signal }: Workplace): Promise<boolean> {
  const trial = store.temporary('webm');
  await runFfmpeg(tools, webmTrialArgs(encoder, trial), { signal });
  const asked = ['-show_packets', '-show_entries', 'packet=codec_type,pts_time'];
  const told = packets.parse(await runFfprobe(tools, asked, trial, signal)).packets;
  await rm(trial, { force: true });
  const first = (type: string) => told.find(({ codec_type }) => codec_type === type)?.pts_time ?? 0;
  return soundComesEarly(first('video'), first('audio'));
}
