import { TICKS_PER_SECOND } from '../../core/time/index.ts';
import type { LessonData } from './lesson-data.ts';

/**
 * Makes a steel rule of the scrubber: a long graduation where a chapter begins, a short one for a step.
 * Only to be seen; chapters and steps are reached by the menu and the list.
 */
export function graduate(player: Element, { plan, chapters, steps }: LessonData): void {
  const length = plan.kept.reduce((sum, [start, end]) => sum + end - start, 0) / TICKS_PER_SECOND;
  const holder = player.querySelector('.vjs-progress-holder');
  if (!holder || length === 0) return;
  const marks = document.createElement('div');
  marks.className = 'graduations';
  marks.setAttribute('aria-hidden', 'true');
  for (const [name, parts] of [
    ['step', steps],
    ['chapter', chapters],
  ] as const)
    for (const { start, end } of parts) {
      if (end <= start) continue;
      const mark = document.createElement('i');
      mark.className = `${name}-mark`;
      mark.style.left = `${(start / length) * 100}%`;
      marks.append(mark);
    }
  holder.append(marks);
}
