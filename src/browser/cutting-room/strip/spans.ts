import { lineOf } from '../../../core/edit/index.ts';
import { firstWhere } from '../../../core/time/index.ts';
import type { Scene } from './scene.ts';

/** Lines of the ranges that are seen. */
export function spans(
  scene: Scene,
  ranges: readonly { start: number; end: number }[],
  draw: (y: number, h: number) => void,
): void {
  const end = scene.scale.top + scene.height * scene.scale.ticksPerLine;
  const first = firstWhere(ranges, (range) => range.end > scene.scale.top);
  for (let i = first; i < ranges.length; i++) {
    const range = ranges[i];
    if (!range || range.start >= end) return;
    const y = Math.max(-1, lineOf(scene.scale, range.start));
    draw(y, Math.max(1, Math.min(scene.height + 1, lineOf(scene.scale, range.end)) - y));
  }
}
