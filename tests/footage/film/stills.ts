import { BRAKE_STEPS } from '../draw/brake-steps.ts';
import { CHAIN_STEPS } from '../draw/chain-steps.ts';
import type { Drawing } from '../draw/ink.ts';
import { chapterDrawing, droppedDrawing, IDLE, slateDrawing } from '../draw/off-script.ts';
import type { Heading } from '../script/headings.ts';
import type { Shot } from '../script/timeline.ts';
import type { SceneSound } from '../sound/soundtrack.ts';
import { FRAMES_PER_PHASE, PHASES } from './geometry.ts';
import type { Sheet } from './sheet.ts';

const FPS = 30_000 / 1001;
const STEPS: Readonly<Record<string, Drawing>> = { ...CHAIN_STEPS, ...BRAKE_STEPS };

/** What a scene looks like at a phase of its motion, 0 … PHASES − 1. @throws Error where nothing is drawn for it */
export function sheetOf(
  { scene }: Shot,
  phase: number,
  headings: ReadonlyMap<string, Heading>,
  corner: readonly [string, string],
): Sheet {
  const heading = headings.get(scene.of);
  const words = {
    chapter: [`Chapter ${heading?.chapterNumber}`, heading?.title ?? ''],
    step: [heading?.chapter ?? '', heading?.title ?? ''],
    retake: ['First attempt', heading?.title ?? ''],
    dropped: ['A wrench falls', heading?.title ?? ''],
    slate: ['Slate', `Roll ${scene.of}`],
    idle: ['Between the takes', 'Nothing to see here'],
  } satisfies Record<typeof scene.kind, [string, string]>;
  const [above = '', title = ''] = words[scene.kind];
  const drawing = drawingOf(scene.kind, scene.of, heading, corner[0]);
  if (!drawing || !title) throw new Error(`nothing is drawn for the ${scene.kind} ${scene.of}`);
  const dim = scene.kind !== 'step' && scene.kind !== 'chapter';
  return { above, title, corner, dim, drawing: drawing(phase / PHASES) };
}

function drawingOf(kind: Shot['scene']['kind'], of: string, heading: Heading | undefined, recording: string) {
  if (kind === 'slate') return slateDrawing(of, recording);
  if (kind === 'idle') return IDLE[of];
  if (kind === 'dropped') return droppedDrawing;
  return STEPS[of] ?? chapterDrawing(heading?.chapterNumber ?? 0);
}

/** The phase of the motion that a scene is in at a frame of the recording: hands move only while work is heard. */
export function phaseAt(shot: Shot, { working, knock }: SceneSound, frame: number): number {
  const seconds = frame / FPS;
  const cycle = (from: number, frames: number) => Math.floor(((seconds - from) * FPS) / frames) % PHASES;
  switch (shot.scene.kind) {
    case 'step': {
      const now = working.find(({ start, end }) => start <= seconds && seconds < end);
      return now ? cycle(now.start, FRAMES_PER_PHASE) : 0;
    }
    case 'slate':
      return knock !== undefined && seconds >= knock ? PHASES - 1 : 0;
    case 'dropped': {
      // It falls for nine phases of three frames and lands with the knock.
      const fallen = knock === undefined ? 0 : (seconds - knock) * FPS + 27;
      return Math.max(0, Math.min(PHASES - 1, Math.floor(fallen / 3)));
    }
    case 'idle':
      return shot.scene.of === 'camera' && seconds - shot.start / 10 < 8 ? cycle(shot.start / 10, FRAMES_PER_PHASE) : 0;
    default:
      return 0;
  }
}
