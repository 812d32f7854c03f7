import { join } from 'node:path';
import { planFilmParts } from '../../core/media/index.ts';
import type { Lesson, Recording } from '../../core/model/index.ts';
import { lessonTimes } from '../../core/programme/index.ts';
import { printClockTime, type Ticks, ticks } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { copyStretch, dividePoints } from '../media/divide-film.ts';
import type { FilmPart, RenderedFiles } from '../media/rendered.ts';

export interface DivideWishes {
  /** Bytes that a file may have. */
  readonly largest: number;
  /** An empty folder for the parts. */
  readonly folder: string;
  readonly signal: AbortSignal;
  /** Told of each piece that was written, bytes as they were before. */
  readonly wrote: (bytes: number) => void;
}

/** A programme in files that are no larger than they may be. */
export interface DividedFilm {
  readonly rendered: RenderedFiles;
  /** Where it was divided, in words; none where it lies as it lay. */
  readonly at: readonly string[];
}

/**
 * A finished programme with each of its files that is too large divided, by copying, before a chapter of its lessons.
 *
 * @param sizes bytes of each of its files
 * @throws OutsideFailure when it cannot be divided so far
 */
export async function divideFilm(
  rendered: RenderedFiles,
  sizes: readonly number[],
  recording: Recording,
  lessons: readonly Lesson[],
  { largest, folder, signal, wrote }: DivideWishes,
): Promise<DividedFilm> {
  const chapters = lessons
    .filter((lesson) => lesson.recording === recording.id)
    .flatMap((lesson) => lessonTimes(lesson, recording).chapters)
    .map(({ chapter, at }) => ({ title: chapter.title, start: at.start }));
  const { frame } = rendered.manifest;
  const parts: FilmPart[] = [];
  const at: string[] = [];
  let begun = 0;
  for (const [i, whole] of rendered.parts.entries()) {
    const bytes = sizes[i] ?? 0;
    const from = begun;
    begun += whole.length;
    if (bytes <= largest) {
      parts.push(whole);
      continue;
    }
    const { points, end } = await dividePoints(whole.file, frame);
    const starts = chapters.map(({ start }) => start - from).filter((start) => start >= 0 && start < whole.length);
    // The length is that of the programme: the last picture may be shown a little longer or shorter than a frame.
    const to = { ...end, at: ticks<'programme'>(whole.length) };
    const plan = planFilmParts(points, to, starts as Ticks<'programme'>[], largest);
    if (!plan.ok)
      throw new OutsideFailure(`${recording.id} cannot be divided: ${plan.problem}`, `${plan.help}: --largest-file`);
    for (const span of plan.value) {
      const file = join(folder, `${recording.id}.${parts.length + 1}.mp4`);
      let last = span.start;
      await copyStretch(whole.file, span, frame, file, {
        signal,
        wrote: (moment) => {
          wrote(((moment - last) / whole.length) * bytes);
          last = moment;
        },
      });
      if (span.start > 0) at.push(placeInWords(ticks(from + span.start), chapters));
      parts.push({ file, length: span.end - span.start });
    }
  }
  return { rendered: { ...rendered, parts }, at };
}

/** Where a part begins: at a chapter, or at least a moment. A key picture may lie a little before its chapter. */
function placeInWords(
  moment: Ticks<'programme'>,
  chapters: readonly { readonly title: string; readonly start: Ticks<'programme'> }[],
): string {
  const next = chapters.find(({ start }) => start >= moment);
  const near = next && next.start - moment < NEAR ? ` ("${next.title}")` : '';
  return `${printClockTime(moment)}${near}`;
}

/** Key pictures of films that are made for cutting lie closer than this, ticks: 15 s (common practice, no source). */
const NEAR = 15 * 705_600_000;
