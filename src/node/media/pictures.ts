import { writeFile } from 'node:fs/promises';
import { type StoryboardPlan, storyboardVtt } from '../../core/media/index.ts';
import { runFfmpeg } from './ffmpeg.ts';
import type { Workplace } from './pool.ts';

/** A still of the programme for before it plays. @param at s */
export async function makePoster(programme: string, at: number, output: string, place: Workplace): Promise<void> {
  const args = ['-ss', at.toFixed(3), '-i', programme, '-frames:v', '1', '-q:v', '3', '-f', 'image2', output];
  await runFfmpeg(place.tools, args, { signal: place.signal });
}

/** A sheet of small pictures for the seek bar, and the WebVTT that says which one belongs to which time. */
export async function makeStoryboard(
  programme: string,
  plan: StoryboardPlan,
  sheet: { readonly path: string; readonly name: string },
  text: string,
  place: Workplace,
): Promise<void> {
  const filters = [
    // Each picture is the key picture nearest before its time: the rest need not be decoded.
    `fps=fps=1/${plan.every}:round=up`,
    `scale=${plan.width}:${plan.height}`,
    `tile=${plan.columns}x${plan.rows}`,
  ];
  await runFfmpeg(
    place.tools,
    [
      ...['-skip_frame', 'nokey', '-i', programme, '-an', '-vf', filters.join(',')],
      ...['-frames:v', '1', '-q:v', '5', '-f', 'image2', sheet.path],
    ],
    { signal: place.signal },
  );
  await writeFile(text, storyboardVtt(plan, sheet.name));
}
