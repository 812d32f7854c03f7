import { join } from 'node:path';
import { planStills, type StillPlan } from '../../core/media/index.ts';
import type { Lesson, Recording } from '../../core/model/index.ts';
import { finishedSpans } from '../../core/programme/index.ts';
import { toSeconds } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { type StillWanted, takeStills } from '../media/stills.ts';
import { withWorkplace } from '../media/workplace.ts';
import { stillPath } from './footage-paths.ts';
import type { RenderedProgramme, Site } from './open-site.ts';

export interface StillsTaken {
  /** Absolute path of each picture, by path below the site's footage. */
  readonly stills: ReadonlyMap<string, string>;
  /** Why there are none but those of rendered programmes. */
  readonly without?: OutsideFailure;
}

const NOBODY_WATCHES = { terminal: false, line: () => {}, now: () => 0 };

/**
 * Pictures of the site's lessons, of their chapters and of their steps, out of what the site plays: never of footage
 * that it does not publish. Without ffmpeg a lesson has the poster of its rendered programme, where there is one.
 */
export async function siteStills(
  site: Site,
  around: { readonly env: Readonly<Record<string, string | undefined>>; readonly signal: AbortSignal },
): Promise<StillsTaken> {
  const lessons = site.shop.lessons.filter(({ draft }) => !draft);
  const wanted = lessons.flatMap((lesson) => wantedOf(site, lesson));
  if (wanted.length === 0) return { stills: new Map() };
  try {
    const place = { ...around, display: NOBODY_WATCHES };
    return { stills: await withWorkplace(site.content, place, (at) => takeStills(wanted, at)) };
  } catch (error) {
    if (!(error instanceof OutsideFailure)) throw error;
    return { stills: new Map(lessons.flatMap((lesson) => posterOf(site, lesson))), without: error };
  }
}

function wantedOf(site: Site, lesson: Lesson): StillWanted[] {
  const recording = site.shop.recordings.find(({ id }) => id === lesson.recording);
  const programme = site.rendered.get(lesson.recording);
  if (!recording || (!programme && site.unrendered === 'none')) return [];
  return planStills(lesson, recording, programme !== undefined).flatMap((plan) => {
    const name = stillPath(lesson.id, plan.part);
    if (programme) return inPart(programme, plan).map((where) => ({ ...plan, ...where, name }));
    const path = cameraFile(site, recording, plan.file);
    return path === undefined ? [] : [{ ...plan, name, path }];
  });
}

/** The file of a programme that a stretch of it begins in, and the stretch in that file, s. */
function inPart(programme: RenderedProgramme, { from, to }: StillPlan): { path: string; from: number; to: number }[] {
  return finishedSpans(programme).flatMap((span, part) => {
    const [start, end] = [toSeconds(span.start), toSeconds(span.end)];
    const path = programme.parts[part]?.file;
    if (path === undefined || from < start || from >= end) return [];
    return [{ path, from: from - start, to: Math.min(to, end) - start }];
  });
}

function cameraFile({ content }: Site, { files }: Recording, position = -1): string | undefined {
  const file = files[position];
  return file?.facts.state === 'media' ? join(content, file.file) : undefined;
}

function posterOf({ rendered }: Site, lesson: Lesson): (readonly [string, string])[] {
  const poster = rendered.get(lesson.recording)?.poster;
  return poster === undefined ? [] : [[stillPath(lesson.id), poster]];
}
