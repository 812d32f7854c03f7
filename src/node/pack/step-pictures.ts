import { join } from 'node:path';
import { cameraInput } from '../../core/media/index.ts';
import { filePosition, finishedPlan, lessonTimes, pieceAt, playPieces, playPlan } from '../../core/programme/index.ts';
import { ticks } from '../../core/time/index.ts';
import { fileInside, type LoadedShop } from '../files/index.ts';
import { runFfmpeg } from '../media/ffmpeg.ts';
import { findRendered } from '../media/rendered.ts';
import type { Tools } from '../media/tools.ts';
import type { Footage } from './assemble.ts';

/** A picture of a step, taken from the film. */
export interface StepPicture {
  readonly lesson: string;
  readonly step: string;
  /** Absolute path of a JPEG file. */
  readonly file: string;
}

/** Where in a step its picture is taken: late enough that the work is under way. */
const AT = 0.6;
/** Pixels; a book is read on a small page. */
const WIDTH = 960;

/**
 * A picture of each step that the film shows, from the finished programme or the camera files.
 *
 * @param scratch absolute path of a folder to put them into
 * @throws OutsideFailure when ffmpeg fails
 */
export async function stepPictures(
  { content, shop }: LoadedShop,
  lessons: readonly string[],
  {
    scratch,
    tools,
    signal,
    footage,
  }: { readonly scratch: string; readonly tools: Tools; readonly signal: AbortSignal; readonly footage: Footage },
): Promise<StepPicture[]> {
  const taken: StepPicture[] = [];
  for (const lesson of shop.lessons.filter(({ id }) => lessons.includes(id))) {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    if (!recording) continue;
    const rendered = footage === 'rendered' ? await findRendered(content, recording) : undefined;
    const plan = rendered
      ? finishedPlan(rendered.programme, rendered.manifest)
      : playPlan(recording, (file) => fileInside(content, file));
    const pieces = playPieces(plan);
    for (const { step, at } of lessonTimes(lesson, recording).chapters.flatMap(({ steps }) => steps)) {
      const moment = ticks<'programme'>(Math.floor(at.start + AT * (at.end - at.start)));
      const piece = at.end > at.start ? pieces[pieceAt(pieces, moment)] : undefined;
      const path = piece && plan.files[piece.file]?.url;
      if (!piece || path === undefined) continue;
      const file = join(scratch, `${lesson.id}-${step.id}.jpg`);
      await runFfmpeg(
        tools,
        [
          ...['-ss', filePosition(plan, piece, moment).toFixed(3), ...cameraInput(path), '-frames:v', '1'],
          // Without the marks of the program that has made it: the same picture is the same bytes.
          ...[
            '-vf',
            `scale='min(${WIDTH},iw)':-2`,
            '-fflags',
            '+bitexact',
            '-flags:v',
            '+bitexact',
            '-q:v',
            '4',
            '-f',
            'image2',
            file,
          ],
        ],
        { signal },
      );
      taken.push({ lesson: lesson.id, step: step.id, file });
    }
  }
  return taken;
}
