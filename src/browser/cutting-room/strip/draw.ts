import { cutsOf, firstFrom, levelFor, lineOf, rulerStep } from '../../../core/edit/index.ts';
import { TICKS_PER_SECOND, type Ticks, ticks } from '../../../core/time/index.ts';
import { type Columns, columnsOf, type Scene } from './scene.ts';

type Pen = CanvasRenderingContext2D;

/** Draws the strip: time runs downwards, what is cut is hatched, steps are numbered balloons with leader lines. */
export function drawStrip(pen: Pen, scene: Scene): void {
  const columns = columnsOf(scene.width, scene.thumbs !== undefined);
  pen.fillStyle = scene.look.sheet;
  pen.fillRect(0, 0, scene.width, scene.height);
  drawRuler(pen, scene, columns);
  drawFilm(pen, scene, columns);
  drawSound(pen, scene, columns);
  drawCuts(pen, scene, columns);
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
  const step = rulerStep(scale, 64) * TICKS_PER_SECOND;
  pen.font = `500 12px ${look.figures}`;
  pen.textBaseline = 'middle';
  pen.textAlign = 'right';
  pen.strokeStyle = look.hair;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.fillStyle = look.soft;
  for (let at = Math.floor(scale.top / step) * step; ; at += step) {
    const y = Math.round(lineOf(scale, at)) + 0.5;
    if (y > height + 8) break;
    if (at < 0) continue;
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
  const times = thumbs.cells.map(({ at }) => ticks<'recording'>(at));
  for (let y = -mod(scale.top / scale.ticksPerLine, tall); y < height; y += tall) {
    const at = scale.top + (y + tall / 2) * scale.ticksPerLine;
    const cell = thumbs.cells[Math.max(0, firstFrom(times, at + 1) - 1)];
    if (cell) pen.drawImage(thumbs.image, cell.x, cell.y, cell.w, cell.h, film.x + 1, y, film.w - 2, tall - 1);
  }
}

function mod(a: number, b: number): number {
  return ((a % b) + b) % b;
}

function drawSound(pen: Pen, scene: Scene, { sound }: Columns): void {
  const { peaks, scale, height, look } = scene;
  const middle = sound.x + sound.w / 2;
  pen.fillStyle = look.wash;
  spans(scene, scene.speech, (y, h) => pen.fillRect(sound.x, y, sound.w, h));
  pen.fillStyle = look.hair;
  spans(scene, scene.silences, (y, h) => pen.fillRect(sound.x + sound.w - 3, y, 3, h));
  if (!peaks) {
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

/** Lines of the ranges that are seen. */
function spans(
  scene: Scene,
  ranges: readonly { start: number; end: number }[],
  draw: (y: number, h: number) => void,
): void {
  const end = until(scene);
  let low = 0;
  let high = ranges.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ranges[middle]?.end ?? 0) <= scene.scale.top) low = middle + 1;
    else high = middle;
  }
  for (let i = low; i < ranges.length; i++) {
    const range = ranges[i];
    if (!range || range.start >= end) return;
    const y = Math.max(-1, lineOf(scene.scale, range.start));
    draw(y, Math.max(1, Math.min(scene.height + 1, lineOf(scene.scale, range.end)) - y));
  }
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
  const pattern = hatchOf(pen, look.line);
  spans(scene, cutsOf(scene.kept, ticks(scene.length)), (y, h) => {
    pen.globalAlpha = 0.78;
    pen.fillStyle = look.paper;
    pen.fillRect(film.x, y, w, h);
    pen.globalAlpha = 0.7;
    pen.fillStyle = pattern;
    pen.fillRect(film.x, y, w, h);
    pen.globalAlpha = 1;
    pen.fillStyle = look.ink;
    pen.fillRect(film.x - 3, y, w + 6, 1.5);
    pen.fillRect(film.x - 3, y + h - 1.5, w + 6, 1.5);
  });
}

function drawSuggestions(pen: Pen, scene: Scene, { film, sound }: Columns): void {
  pen.strokeStyle = scene.look.warning;
  pen.lineWidth = 2;
  pen.setLineDash([5, 4]);
  spans(
    scene,
    scene.suggestions.map(({ range }) => range),
    (y, h) => pen.strokeRect(film.x - 2, y + 1, sound.x + sound.w - film.x + 4, Math.max(2, h - 2)),
  );
  pen.setLineDash([]);
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

/** Labels that are seen, with the line each is drawn on: pushed apart so that none covers another. */
export interface Placed {
  readonly id: string;
  readonly cueLine: number;
  readonly line: number;
}

const APART = 24;

/** Which passages get a label and where: the chosen one always, chapters before steps, as many as there is room for. */
export function placeLabels({
  passages,
  scale,
  height,
  chosen,
}: Pick<Scene, 'passages' | 'scale' | 'height' | 'chosen'>): Placed[] {
  const seen = passages.flatMap(({ id, cue, kind }) => {
    if (!cue) return [];
    const line = lineOf(scale, cue.at);
    return line > -APART && line < height + APART
      ? [{ id, cueLine: line, rank: id === chosen ? 0 : kind === 'chapter' ? 1 : 2 }]
      : [];
  });
  const room = Math.max(1, Math.floor(height / APART));
  const picked =
    seen.length <= room ? seen : seen.toSorted((a, b) => a.rank - b.rank || a.cueLine - b.cueLine).slice(0, room);
  const rows = picked.toSorted((a, b) => a.cueLine - b.cueLine || a.rank - b.rank);
  const lines: number[] = [];
  for (const { cueLine } of rows) lines.push(Math.max(cueLine, (lines.at(-1) ?? Number.NEGATIVE_INFINITY) + APART));
  for (let i = lines.length - 1; i >= 0; i--) {
    const most = (lines[i + 1] ?? height + APART / 2) - APART;
    if ((lines[i] ?? 0) > most && most >= (rows[i]?.cueLine ?? 0) - height)
      lines[i] = Math.min(lines[i] ?? 0, Math.max(most, APART / 2));
  }
  return rows.map(({ id, cueLine }, i) => ({ id, cueLine, line: lines[i] ?? cueLine }));
}

function drawLabels(pen: Pen, scene: Scene, { sound, labels }: Columns): void {
  const { passages, chosen, look, findings, scale, height } = scene;
  const edge = sound.x + sound.w;
  pen.strokeStyle = look.line;
  pen.lineWidth = 1;
  pen.beginPath();
  for (const { cue } of passages) {
    const y = cue ? lineOf(scale, cue.at) : -9;
    if (y < -1 || y > height) continue;
    pen.moveTo(edge, y);
    pen.lineTo(edge + 8, y);
  }
  pen.stroke();
  const numbers = numbersOf(passages);
  pen.textBaseline = 'middle';
  for (const { id, cueLine, line } of placeLabels(scene)) {
    const passage = passages.find((p) => p.id === id);
    if (!passage) continue;
    const on = id === chosen;
    const chapter = passage.kind === 'chapter';
    pen.strokeStyle = on ? look.blue : look.line;
    pen.lineWidth = on ? 2 : 1;
    pen.beginPath();
    pen.moveTo(edge + 1, cueLine);
    pen.lineTo(edge + 8, cueLine);
    pen.lineTo(labels.x - 9, line);
    pen.stroke();
    balloon(pen, labels.x + 2, line, numbers.get(id) ?? '', chapter, on, look);
    pen.font = `${chapter || on ? 700 : 450} 13px ${look.face}`;
    pen.textAlign = 'left';
    pen.fillStyle = on ? look.blue : look.ink;
    pen.fillText(fitted(pen, passage.title, labels.w - 24), labels.x + 18, line);
  }
  for (const { at, severity } of findings) {
    const y = lineOf(scale, at);
    if (y < 0 || y > height) continue;
    pen.fillStyle = severity === 'error' ? look.danger : look.warning;
    pen.beginPath();
    pen.moveTo(edge + 2, y);
    pen.lineTo(edge + 10, y - 5);
    pen.lineTo(edge + 10, y + 5);
    pen.fill();
  }
}

/** Part numbers: chapters are 1, 2, 3; the steps of chapter 2 are 2.1, 2.2. */
export function numbersOf(passages: Scene['passages']): Map<string, string> {
  return new Map(
    passages.map(({ id, chapter, step }) => [
      id,
      step === undefined ? String(chapter + 1) : `${chapter + 1}.${step + 1}`,
    ]),
  );
}

function balloon(
  pen: Pen,
  x: number,
  y: number,
  number: string,
  chapter: boolean,
  on: boolean,
  look: Scene['look'],
): void {
  pen.beginPath();
  if (chapter) pen.rect(x - 12, y - 10, 24, 20);
  else pen.ellipse(x, y, 13, 10, 0, 0, Math.PI * 2);
  pen.fillStyle = on ? look.blue : look.sheet;
  pen.fill();
  pen.strokeStyle = on ? look.blue : look.line;
  pen.lineWidth = chapter ? 2 : 1;
  pen.stroke();
  pen.fillStyle = on ? look.onBlue : look.ink;
  pen.font = `600 10.5px ${look.figures}`;
  pen.textAlign = 'center';
  pen.fillText(number, x, y + 0.5);
}

const widths = new Map<string, string>();

/** A text cut to a width; measured once. */
function fitted(pen: Pen, text: string, width: number): string {
  const key = `${pen.font} ${Math.round(width)} ${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  let fit = text;
  if (pen.measureText(text).width > width) {
    let low = 0;
    let high = text.length;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (pen.measureText(`${text.slice(0, middle)}…`).width <= width) low = middle;
      else high = middle - 1;
    }
    fit = `${text.slice(0, low).trimEnd()}…`;
  }
  if (widths.size > 4000) widths.clear();
  widths.set(key, fit);
  return fit;
}

/** The whole recording in one narrow column, with what the strip shows of it. */
function drawWhole(pen: Pen, scene: Scene, { whole }: Columns): void {
  const { look, height, length, scale, passages } = scene;
  const y = (at: number) => (at / Math.max(1, length)) * height;
  pen.fillStyle = look.hair;
  pen.fillRect(whole.x, 0, whole.w, height);
  pen.fillStyle = look.blue;
  pen.globalAlpha = 0.55;
  for (const kept of scene.kept)
    pen.fillRect(whole.x + 4, y(kept.in.at), whole.w - 8, Math.max(1, y(kept.out.at - kept.in.at)));
  pen.globalAlpha = 1;
  pen.fillStyle = look.ink;
  for (const { cue, kind } of passages) if (cue && kind === 'chapter') pen.fillRect(whole.x, y(cue.at), whole.w, 1.5);
  pen.strokeStyle = look.ink;
  pen.lineWidth = 2;
  const top = y(scale.top);
  pen.strokeRect(whole.x + 1, top + 1, whole.w - 2, Math.max(6, y(height * scale.ticksPerLine)) - 2);
}

/** The playhead, on a canvas of its own that is cheap to draw each frame. */
export function drawPlayhead(pen: Pen, scene: Scene, playhead: number, text: string): void {
  const { ruler, sound, whole } = columnsOf(scene.width, scene.thumbs !== undefined);
  const { look, scale, height, length } = scene;
  pen.clearRect(0, 0, scene.width, height);
  const y = lineOf(scale, playhead);
  pen.fillStyle = look.ink;
  pen.fillRect(whole.x, (playhead / Math.max(1, length)) * height - 1, whole.w, 2.5);
  if (y < -12 || y > height + 12) return;
  pen.fillRect(ruler.x, y - 1, sound.x + sound.w - ruler.x + 4, 2);
  pen.font = `600 12px ${look.figures}`;
  pen.textBaseline = 'middle';
  const w = pen.measureText(text).width + 8;
  pen.fillRect(ruler.x - 2, y - 9, w, 18);
  pen.fillStyle = look.sheet;
  pen.textAlign = 'left';
  pen.fillText(text, ruler.x + 2, y + 0.5);
}
