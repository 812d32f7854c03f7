import { join } from 'node:path';
import type { Lesson, Recording } from '../../core/model/index.ts';
import { finishedPlan, lessonTimes, type PlayPlan, planOpenings, playPlan } from '../../core/programme/index.ts';
import { range, type Ticks, ticks } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { makeOpenings, type OpeningWanted } from '../media/openings.ts';
import { openingPath } from './footage-paths.ts';
import type { Site, SiteOpening } from './open-site.ts';

/**
 * Short copies of the films that the site plays, from the start of each programme and from each part of its lessons: a
 * part begins by its copy while the index of the whole film is still on its way. None where nothing can be written
 * beside the content; films then begin when their index has come.
 */
export async function siteOpenings(site: Site, signal: AbortSignal): Promise<Site['openings']> {
  const found = new Map<string, readonly SiteOpening[]>();
  try {
    for (const recording of site.shop.recordings) {
      const lessons = site.shop.lessons.filter((lesson) => !lesson.draft && lesson.recording === recording.id);
      const openings = await openingsOfFilm(site, recording, lessons, signal);
      if (openings.length > 0) found.set(recording.id, openings);
    }
  } catch (error) {
    if (!(error instanceof OutsideFailure)) throw error;
  }
  return found;
}

async function openingsOfFilm(
  site: Site,
  recording: Recording,
  lessons: readonly Lesson[],
  signal: AbortSignal,
): Promise<SiteOpening[]> {
  const plan = planOf(site, recording);
  const { frame } = plan;
  if (lessons.length === 0 || frame === undefined) return [];
  const planned = planOpenings(plan, [ticks(0), ...lessons.flatMap((lesson) => startsOf(lesson, recording))]);
  const wanted = planned.flatMap(({ file, recording: stretch }): (OpeningWanted & { readonly offset: number })[] => {
    const whole = plan.files[file];
    if (!whole) return [];
    const offset = whole.recording.start;
    return [
      { path: whole.url, stretch: range(ticks(stretch.start - offset), ticks(stretch.end - offset)), frame, offset },
    ];
  });
  const made = await makeOpenings(site.content, wanted, signal);
  return made.flatMap((opening, i): SiteOpening[] => {
    if (!opening) return [];
    const { file, holds } = opening;
    const { offset = 0, stretch } = wanted[i] ?? {};
    const path = openingPath(recording.id, offset + (stretch?.start ?? 0));
    return [{ file, path, holds: range(ticks(offset + holds.start), ticks(offset + holds.end)) }];
  });
}

/** As the pages play it, with the absolute paths of the files in place of their addresses. */
function planOf({ content, rendered, unrendered }: Site, recording: Recording): PlayPlan {
  const programme = rendered.get(recording.id);
  if (!programme)
    return unrendered === 'none' ? { files: [], kept: [] } : playPlan(recording, (file) => join(content, file));
  const plan = finishedPlan(recording.id, programme, (name) => name);
  return {
    ...plan,
    files: plan.files.map((file, part) => ({ ...file, url: programme.parts[part]?.file ?? file.url })),
  };
}

function startsOf(lesson: Lesson, recording: Recording): Ticks<'programme'>[] {
  return lessonTimes(lesson, recording).chapters.flatMap(({ at, steps }) => [
    at.start,
    ...steps.map((step) => step.at.start),
  ]);
}
