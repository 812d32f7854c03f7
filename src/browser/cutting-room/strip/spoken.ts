import { lineOf } from '../../../core/edit/index.ts';
import { firstWhere, lastUpTo } from '../../../core/time/index.ts';
import type { SpokenWord } from '../../../core/words/index.ts';
import type { Columns } from './columns.ts';
import type { Scene } from './scene.ts';

/** Height of a line of words, CSS pixels. */
const LINE = 16;

/**
 * What is said, beside its time: each line holds the words that begin while it lasts, as many as it has room for. What
 * is cut is struck through, what lies between the points is marked, what nobody has read yet leans.
 */
export function drawSpoken(pen: CanvasRenderingContext2D, scene: Scene, { words: column }: Columns): void {
  if (column.w === 0) return;
  const { scale, spoken, height, look } = scene;
  const span = LINE * scale.ticksPerLine;
  // Lines belong to times, so that scrolling moves them and mixes no words.
  const first = Math.floor(scale.top / span);
  const last = Math.ceil((scale.top + height * scale.ticksPerLine) / span);
  pen.textBaseline = 'middle';
  pen.textAlign = 'left';
  let at = firstWhere(spoken, (word) => word.at.start >= first * span);
  for (let line = first; line <= last; line++) {
    let end = at;
    while ((spoken[end]?.at.start ?? Number.POSITIVE_INFINITY) < (line + 1) * span) end++;
    drawLine(pen, scene, column, spoken.slice(at, end), lineOf(scale, line * span) + LINE / 2);
    at = end;
  }
  pen.fillStyle = look.ink;
}

function drawLine(
  pen: CanvasRenderingContext2D,
  { look, cuts, marks }: Scene,
  { x, w }: Columns['words'],
  words: readonly SpokenWord[],
  y: number,
): void {
  let left = x;
  for (const [i, { text, at, unread }] of words.entries()) {
    pen.font = `${unread ? 'italic ' : ''}400 13px ${look.face}`;
    const wide = pen.measureText(`${text} `).width;
    const room = x + w - left;
    const more = i < words.length - 1;
    if (wide > room - (more ? 12 : 0) && i > 0) {
      pen.fillStyle = look.soft;
      pen.fillText('…', left, y);
      return;
    }
    const chosen = marks.in !== undefined && marks.out !== undefined && at.start < marks.out && at.end > marks.in;
    if (chosen) {
      pen.fillStyle = look.wash;
      pen.fillRect(left - 2, y - LINE / 2, Math.min(wide, room), LINE);
    }
    const cut = isCut(cuts, (at.start + at.end) / 2);
    pen.fillStyle = cut ? look.soft : look.ink;
    pen.fillText(text, left, y, room);
    if (cut) pen.fillRect(left - 1, Math.round(y), Math.min(wide, room), 1.5);
    left += wide;
  }
}

function isCut(cuts: Scene['cuts'], at: number): boolean {
  return (lastUpTo(cuts, at, ({ start }) => start)?.end ?? 0) > at;
}
