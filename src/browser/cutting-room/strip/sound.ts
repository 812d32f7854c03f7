import { levelFor } from '../../../core/edit/index.ts';
import { TICKS_PER_SECOND } from '../../../core/time/index.ts';
import type { Columns } from './columns.ts';
import type { Scene } from './scene.ts';
import { spans } from './spans.ts';

/** What is heard: speech as a wash, silence as a bar, captions that nobody has read as a line at its edge, the waveform over all. */
export function drawSound(pen: CanvasRenderingContext2D, scene: Scene, { sound }: Columns): void {
  const { peaks, scale, height, look } = scene;
  const middle = sound.x + sound.w / 2;
  pen.fillStyle = look.wash;
  spans(scene, scene.speech, (y, h) => pen.fillRect(sound.x, y, sound.w, h));
  pen.fillStyle = look.hair;
  spans(scene, scene.silences, (y, h) => pen.fillRect(sound.x + sound.w - 3, y, 3, h));
  pen.fillStyle = look.warning;
  spans(scene, scene.unread, (y, h) => pen.fillRect(sound.x - 3, y, 3, Math.max(1, h - 1)));
  if (!peaks) {
    pen.fillStyle = look.hair;
    pen.fillRect(middle, 0, 1, height);
    return;
  }
  const secondsPerLine = scale.ticksPerLine / TICKS_PER_SECOND;
  const { pairs, secondsPerPair } = levelFor(peaks, secondsPerLine);
  const half = sound.w / 2 / 128;
  pen.fillStyle = look.blue;
  const from = scale.top / TICKS_PER_SECOND;
  pen.beginPath();
  for (let y = 0; y < height; y++) {
    const a = Math.floor((from + y * secondsPerLine) / secondsPerPair);
    const b = Math.max(a + 1, Math.floor((from + (y + 1) * secondsPerLine) / secondsPerPair));
    let low = 127;
    let high = -128;
    for (let i = a; i < b && i * 2 + 1 < pairs.length; i++) {
      low = Math.min(low, pairs[i * 2] ?? 0);
      high = Math.max(high, pairs[i * 2 + 1] ?? 0);
    }
    if (high >= low) pen.rect(middle + low * half, y, Math.max(1, (high - low) * half), 1);
  }
  pen.fill();
}
