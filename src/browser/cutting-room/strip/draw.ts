import { firstFrom, lineOf } from '../../../core/edit/index.ts';
import type { Ticks } from '../../../core/time/index.ts';
import { type Columns, columnsOf } from './columns.ts';
import { drawLabels } from './labels.ts';
import type { Scene } from './scene.ts';
import { drawSound } from './sound.ts';
import { spans } from './spans.ts';
import { drawSpoken } from './spoken.ts';

type Pen = CanvasRenderingContext2D;

/** Draws the strip: time runs downwards, what is cut is hatched, steps are numbered balloons with leader lines. */
export function drawStrip(pen: Pen, scene: Scene): void {
  const columns = columnsOf(scene.width, scene.thumbs !== undefined, scene.spoken.length > 0);
  pen.fillStyle = scene.look.sheet;
  pen.fillRect(0, 0, scene.width, scene.height);
  drawRuler(pen, scene, columns);
  drawFilm(pen, scene, columns);
  drawSound(pen, scene, columns);
  drawCuts(pen, scene, columns);
  drawSpoken(pen, scene, columns);
  drawSuggestions(pen, scene, columns);
  drawScenes(pen, scene, columns);
  drawMarks(pen, scene, columns);
  drawLabels(pen, scene, columns);
  drawWhole(pen, scene, columns);
}

function until({ scale, height }: Scene): number {
  return scale.top + height * scale.ticksPerLine;
}

function drawRuler(pen: Pen, scene: Scene, { ruler, sound }: Columns): void {
  const { scale, look, height, label } = scene;
  pen.font = `500 12px ${look.figures}`;
  pen.textBaseline = 'middle';
  pen.textAlign = 'right';
  pen.strokeStyle = look.hair;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.fillStyle = look.soft;
  for (const at of scene.marksOf(scale, height + 8, 64)) {
    const y = Math.round(lineOf(scale, at)) + 0.5;
    pen.moveTo(ruler.x + ruler.w, y);
    pen.lineTo(sound.x + sound.w, y);
    pen.fillText(label(at), ruler.x + ruler.w - 4, y);
  }
  pen.stroke();
}

function drawFilm(pen: Pen, scene: Scene, { film }: Columns): void {
  const { thumbs, scale, height, look } = scene;
  pen.strokeStyle = look.line;
  pen.lineWidth = 1;
  pen.strokeRect(film.x + 0.5, -1, film.w - 1, height + 2);
  const first = thumbs?.cells[0];
  if (!thumbs || !first) return;
  const tall = (film.w * first.h) / first.w;
  for (let y = -mod(scale.top / scale.ticksPerLine, tall); y < height; y += tall) {
    const at = scale.top + (y + tall / 2) * scale.ticksPerLine;
    const cell = thumbs.cells[Math.max(0, firstFrom(thumbs.times, at + 1) - 1)];
    if (cell) pen.drawImage(cell.sheet, cell.x, cell.y, cell.w, cell.h, film.x + 1, y, film.w - 2, tall - 1);
  }
}

function mod(a: number, b: number): number {
  return ((a % b) + b) % b;
}

let hatch: { key: string; pattern: CanvasPattern } | undefined;

/** Slanting lines, as a drawing shows what is cut through. */
function hatchOf(pen: Pen, colour: string): CanvasPattern | string {
  if (hatch?.key === colour) return hatch.pattern;
  const tile = document.createElement('canvas');
  tile.width = 8;
  tile.height = 8;
  const small = tile.getContext('2d');
  if (!small) return colour;
  small.strokeStyle = colour;
  small.lineWidth = 1.25;
  small.beginPath();
  for (const x of [-8, 0, 8]) {
    small.moveTo(x, 8);
    small.lineTo(x + 8, 0);
  }
  small.stroke();
  const pattern = pen.createPattern(tile, 'repeat');
  if (!pattern) return colour;
  hatch = { key: colour, pattern };
  return pattern;
}

function drawCuts(pen: Pen, scene: Scene, { film, sound }: Columns): void {
  const { look } = scene;
  const w = sound.x + sound.w - film.x;
  // One path for all of them: a long recording has hundreds, and each fill of its own costs as much as all together.
  pen.beginPath();
  spans(scene, scene.cuts, (y, h) => pen.rect(film.x, y, w, h));
  pen.globalAlpha = 0.78;
  pen.fillStyle = look.paper;
  pen.fill();
  pen.globalAlpha = 0.7;
  pen.fillStyle = hatchOf(pen, look.line);
  pen.fill();
  pen.globalAlpha = 1;
  pen.fillStyle = look.ink;
  pen.beginPath();
  spans(scene, scene.cuts, (y, h) => {
    pen.rect(film.x - 3, y, w + 6, 1.5);
    pen.rect(film.x - 3, y + h - 1.5, w + 6, 1.5);
  });
  pen.fill();
}

function drawSuggestions(pen: Pen, scene: Scene, { film, sound }: Columns): void {
  pen.strokeStyle = scene.look.warning;
  pen.lineWidth = 2;
  pen.setLineDash([5, 4]);
  spans(scene, scene.suggested, (y, h) =>
    pen.strokeRect(film.x - 2, y + 1, sound.x + sound.w - film.x + 4, Math.max(2, h - 2)),
  );
  pen.setLineDash([]);
  pen.fillStyle = scene.look.warning;
  const { proposedSteps: steps, scale } = scene;
  const end = until(scene);
  for (let i = firstFrom(steps, scale.top); i < steps.length; i++) {
    const at = steps[i];
    if (at === undefined || at > end) break;
    pen.fillRect(sound.x + sound.w + 2, Math.round(lineOf(scale, at)) - 1, 7, 2);
  }
}

function drawScenes(pen: Pen, scene: Scene, { film, ruler }: Columns): void {
  const { scale, found, look } = scene;
  const end = until(scene);
  pen.fillStyle = look.line;
  for (let i = firstFrom(found.scene, scale.top); i < found.scene.length; i++) {
    const at = found.scene[i];
    if (at === undefined || at > end) break;
    pen.fillRect(ruler.x + ruler.w - 2, Math.round(lineOf(scale, at)), 8, 1.5);
  }
  const keys = found.keyframe;
  const from = firstFrom(keys, scale.top);
  const count = firstFrom(keys, end) - from;
  if (count > scene.height / 6) return;
  for (let i = from; i < from + count; i++) {
    const at: Ticks<'recording'> | undefined = keys[i];
    if (at !== undefined) pen.fillRect(film.x - 4, Math.round(lineOf(scale, at)) - 1, 3, 3);
  }
}

function drawMarks(pen: Pen, scene: Scene, { film, sound }: Columns): void {
  const { marks, scale, look } = scene;
  const w = sound.x + sound.w - film.x;
  if (marks.in !== undefined && marks.out !== undefined) {
    pen.globalAlpha = 0.16;
    pen.fillStyle = look.blue;
    pen.fillRect(film.x, lineOf(scale, marks.in), w, (marks.out - marks.in) / scale.ticksPerLine);
    pen.globalAlpha = 1;
  }
  pen.fillStyle = look.blue;
  const bracket = (at: number | undefined, way: 1 | -1) => {
    if (at === undefined) return;
    const y = lineOf(scale, at);
    pen.fillRect(film.x - 5, y - 1, w + 10, 2);
    pen.fillRect(film.x - 5, way === 1 ? y : y - 12, 3, 12);
    pen.fillRect(film.x + w + 2, way === 1 ? y : y - 12, 3, 12);
  };
  bracket(marks.in, 1);
  bracket(marks.out, -1);
}

/** The whole recording in one narrow column, with what the strip shows of it. */
function drawWhole(pen: Pen, scene: Scene, { whole }: Columns): void {
  const { look, height, length, scale, passages } = scene;
  const y = (at: number) => (at / Math.max(1, length)) * height;
  pen.fillStyle = look.hair;
  pen.fillRect(whole.x, 0, whole.w, height);
  pen.fillStyle = look.blue;
  pen.globalAlpha = 0.55;
  pen.beginPath();
  for (const kept of scene.kept)
    pen.rect(whole.x + 4, y(kept.start), whole.w - 8, Math.max(1, y(kept.end - kept.start)));
  pen.fill();
  pen.globalAlpha = 1;
  pen.fillStyle = look.ink;
  for (const { cue, kind } of passages) if (cue && kind === 'chapter') pen.fillRect(whole.x, y(cue.at), whole.w, 1.5);
  pen.strokeStyle = look.ink;
  pen.lineWidth = 2;
  const top = y(scale.top);
  pen.strokeRect(whole.x + 1, top + 1, whole.w - 2, Math.max(6, y(height * scale.ticksPerLine)) - 2);
}
