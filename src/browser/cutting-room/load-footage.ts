import { inOrder } from '../../core/edit/index.ts';
import { fromSeconds, type Ticks } from '../../core/time/index.ts';
import type { DeskData } from './api.ts';
import type { Caption, Footage } from './footage.ts';
import type { Store } from './store.ts';

/** Captions of the recording, read by the browser's own WebVTT parser. */
export async function loadFootage(store: Store, footage: Footage, _data: DeskData): Promise<void> {
  const captions = await readCaptions(store);
  footage.captions.value = captions;
  const { found } = store.session.peek();
  store.patch({ found: { ...found, caption: inOrder(captions.map(({ range }) => range.start)) } });
}

async function readCaptions(store: Store): Promise<Caption[]> {
  const file = store.view.peek().recording?.captions?.file;
  if (!file || !/\.vtt$/i.test(file)) return [];
  const video = document.createElement('video');
  const track = document.createElement('track');
  track.kind = 'captions';
  track.src = store.api.media(file);
  track.default = true;
  video.append(track);
  track.track.mode = 'hidden';
  await new Promise<void>((done) => {
    track.addEventListener('load', () => done(), { once: true });
    track.addEventListener('error', () => done(), { once: true });
  });
  const moment = (seconds: number): Ticks<'recording'> => fromSeconds(seconds);
  return [...(track.track.cues ?? [])].flatMap((cue) =>
    cue instanceof VTTCue
      ? [
          {
            range: { start: moment(cue.startTime), end: moment(cue.endTime) },
            text: cue.getCueAsHTML().textContent ?? '',
          },
        ]
      : [],
  );
}
