import { programmeFile } from '../../core/programme/index.ts';

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

/** Where in it the picture of a lesson, or of a chapter or step of it, lies. */
export function stillPath(lesson: string, part?: string): string {
  return `stills/${lesson}${part === undefined ? '' : `/${part}`}.jpg`;
}
