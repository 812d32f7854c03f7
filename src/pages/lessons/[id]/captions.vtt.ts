import type { APIRoute } from 'astro';
import { writeVtt } from '../../../core/interchange/index.ts';
import { programmeCaptions } from '../../../core/programme/index.ts';
import { openSite } from '../../../node/site/open-site.ts';

/** Lessons whose recording names captions; to see whether they can be read, each file would have to be. */
export async function getStaticPaths() {
  const { shop } = await openSite();
  return shop.lessons
    .filter(({ draft }) => !draft)
    .flatMap(({ id, recording: recordingId }) => {
      const recording = shop.recordings.find((each) => each.id === recordingId);
      return recording?.written.captions ? [{ params: { id }, props: { recording } }] : [];
    });
}

/** The captions of a lesson in programme time, where they can be read. */
export const GET: APIRoute = async (context) => {
  const { shop } = await openSite(context);
  const { id } = context.props.recording;
  const recording = shop.recordings.find((each) => each.id === id) ?? context.props.recording;
  if (!recording.captions?.cues.length) return new Response(null, { status: 404 });
  return new Response(writeVtt(programmeCaptions(recording), recording.captions.blocks), {
    headers: { 'content-type': 'text/vtt; charset=utf-8' },
  });
};
