import { effect } from '@preact/signals';
import { angleAt, frameLength, onFrame } from '../../core/edit/index.ts';
import type { Angle } from '../../core/model/index.ts';
import { TICKS_PER_SECOND, type Ticks } from '../../core/time/index.ts';
import type { Store } from './store.ts';

/** Two elements drift apart while they play; beyond this the angle is put right, seconds. */
const APART = 0.15;

/**
 * The pictures of further cameras, over that of the recording where a kept range names one. Only for the eye: sound
 * and the playhead's time are those of the recording's own files, and while playing the angle may be some frames off.
 */
export function showAngles(store: Store, holder: HTMLElement, signal: AbortSignal): void {
  const videos = new Map<string, HTMLVideoElement>();
  const videoOf = ({ file }: Angle) => {
    const known = videos.get(file);
    if (known) return known;
    const video = document.createElement('video');
    video.src = store.api.media(file);
    video.className = 'angle';
    video.preload = 'auto';
    video.muted = true;
    video.playsInline = true;
    video.tabIndex = -1;
    video.disablePictureInPicture = true;
    video.addEventListener('loadedmetadata', () => draw(store.playhead.peek()), { signal });
    // Where it went meanwhile: while one seek is under way no other is begun.
    video.addEventListener('seeked', () => draw(store.playhead.peek()), { signal });
    videos.set(file, video);
    holder.append(video);
    return video;
  };
  const draw = (at: Ticks<'recording'>) => {
    const session = store.session.peek();
    const id = angleAt(session, onFrame(at, session.view.labels));
    const angle = session.view.recording?.angles.find(
      ({ id: own, span }) => own === id && span && span.start <= at && at < span.end,
    );
    const shown = angle && videoOf(angle);
    for (const video of videos.values()) {
      video.hidden = video !== shown;
      if (video.hidden && !video.paused) video.pause();
    }
    if (angle && shown) follow(shown, angle, at);
  };
  const follow = (video: HTMLVideoElement, { offset = 0, drift }: Angle, at: Ticks<'recording'>) => {
    const { transport, view } = store.session.peek();
    const playing = transport.speed > 0;
    const moment = playing ? at : onFrame(at, view.labels) + frameLength(at, view.labels) / 2;
    const wanted = Math.max(0, ((moment - offset) / TICKS_PER_SECOND) * (1 + drift / 1e6));
    if (video.readyState === 0 || video.seeking) return;
    if (playing) {
      video.playbackRate = Math.min(transport.speed, 16);
      // A play that a seek breaks off is asked for again with the next frame.
      if (video.paused) video.play().catch(() => undefined);
    } else video.pause();
    if (Math.abs(video.currentTime - wanted) > (playing ? APART * Math.max(1, transport.speed) : 0.001))
      video.currentTime = wanted;
  };
  const end = effect(() => {
    store.session.value;
    draw(store.playhead.value);
  });
  signal.addEventListener('abort', () => {
    end();
    for (const video of videos.values()) video.remove();
  });
}
