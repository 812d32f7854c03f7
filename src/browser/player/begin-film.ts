import { planFromJson } from '../../core/programme/index.ts';
import type { Scope } from '../page/scope.ts';
import type { LessonData } from './lesson-data.ts';
import { ProgrammeMedia } from './programme-media.ts';

/** The film's controls come after its first picture; where that takes longer, they come before it, ms. */
const CONTROLS_AT_LATEST = 3000;

/**
 * Shows a lesson's film over the curtain of its host, before the script of its controls is there.
 *
 * @param start programme seconds of the first frame
 * @param play it also plays
 * @param listen hears all that it tells
 */
export function beginFilm(
  host: HTMLElement,
  { plan }: LessonData,
  { start, play, listen }: { start: number; play: boolean; listen: (film: ProgrammeMedia) => void },
): ProgrammeMedia {
  const film = new ProgrammeMedia();
  (host.querySelector('.curtain') ?? host).append(film.element);
  host.classList.add('begun');
  listen(film);
  // In the gesture itself, where a browser wants one.
  if (play) film.play().catch(() => {});
  // A lesson that is kept on this device has its film here, and only that.
  const kept = document.documentElement.dataset.kept !== undefined;
  film.load(planFromJson(kept ? { ...plan, openings: [] } : plan), start);
  return film;
}

/** Settles when the film is seen, plays if it is to, or says why it does not; or when that takes long. */
export function firstSeen(film: ProgrammeMedia, scope: Scope): Promise<void> {
  return new Promise((seen) => {
    scope.after(CONTROLS_AT_LATEST, seen);
    for (const type of ['playing', 'error', 'lost']) film.addEventListener(type, () => seen(), { once: true });
    film.addEventListener('seeked', () => film.paused && seen());
  });
}
