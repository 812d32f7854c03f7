import type { APIRoute } from 'astro';
import { writeVtt } from '../../../core/interchange/index.ts';
import { retimeCaptions } from '../../../core/programme/index.ts';
import { openSite } from '../../../node/site/open-site.ts';

/** Each camera file, counted from 1, of the lessons whose recording has captions that can be read. */
export async function getStaticPaths() {
  const { shop } = await openSite();
  return shop.lessons
    .filter(({ draft }) => !draft)
    .flatMap(({ id, recording: recordingId }) => {
      const recording = shop.recordings.find((each) => each.id === recordingId);
      if (!recording?.captions?.cues.length) return [];
      return recording.files.map(({ span }, index) => ({
        params: { id, part: String(index + 1) },
        props: { captions: recording.captions, span },
      }));
    });
}

/** The captions of one camera file on its own clock, for a browser without scripts. */
export const GET: APIRoute = ({ props: { captions, span } }) =>
  new Response(writeVtt(retimeCaptions(captions.cues, [span]).captions, captions.blocks), {
    headers: { 'content-type': 'text/vtt; charset=utf-8' },
  });
