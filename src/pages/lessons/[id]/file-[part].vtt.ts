import type { APIRoute } from 'astro';
import { writeVtt } from '../../../core/interchange/index.ts';
import { finishedSpans, retimeCaptions } from '../../../core/programme/index.ts';
import { rangeToRecording } from '../../../core/time/index.ts';
import { filmOf, openSite } from '../../../node/site/open-site.ts';

/** Each file that plays, counted from 1, of the lessons whose recording names captions. */
export async function getStaticPaths() {
  const site = await openSite();
  const { shop } = site;
  return shop.lessons
    .filter(({ draft }) => !draft)
    .flatMap(({ id, recording: recordingId }) => {
      const recording = shop.recordings.find((each) => each.id === recordingId);
      if (!recording?.written.captions) return [];
      const film = filmOf(site, recordingId);
      const runs =
        typeof film === 'object'
          ? finishedSpans(film).map((span) => rangeToRecording(recording.edit, span))
          : recording.files.map(({ span }) => [span]);
      return runs.map((edit, index) => ({
        params: { id, part: String(index + 1) },
        props: { recording, edit },
      }));
    });
}

/** The captions of one file on its own clock, for a browser without scripts, where they can be read. */
export const GET: APIRoute = async (context) => {
  const { shop } = await openSite(context);
  const { recording, edit } = context.props;
  const { captions } = shop.recordings.find(({ id }) => id === recording.id) ?? recording;
  if (!captions?.cues.length) return new Response(null, { status: 404 });
  return new Response(writeVtt(retimeCaptions(captions.cues, edit).captions, captions.blocks), {
    headers: { 'content-type': 'text/vtt; charset=utf-8' },
  });
};
