import { programmeFile } from '../../core/programme/index.ts';
import { toSeconds } from '../../core/time/index.ts';

/** Folder of the site that holds the camera files. */
export const FOOTAGE = 'footage';

/** Where in it a file of the rendered programme of a recording lies. */
export function renderedPath(recording: string, part = 0, of = 1): string {
  return `rendered/${programmeFile(recording, part, of)}`;
}

/** Where in it the small pictures of a rendered programme lie. */
export function seekPath(recording: string): string {
  return `rendered/${recording}-seek.jpg`;
}

/** Where in it short copies of stretches of films lie. */
export const OPENINGS = 'openings/';

/** Where in it the copy of a stretch of a recording's film lies. @param start ticks, on the clock of its plan */
export function openingPath(recording: string, start: number): string {
  return `${OPENINGS}${recording}-${Math.round(toSeconds(start) * 1000)}.mp4`;
}

/** Where in it the picture of a lesson, or of a chapter or step of it, lies. */
export function stillPath(lesson: string, part?: string): string {
  return `stills/${lesson}${part === undefined ? '' : `/${part}`}.jpg`;
}
