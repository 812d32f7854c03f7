import { lineOf } from '../../../core/edit/index.ts';
import type { Columns, Scene } from './scene.ts';

type Pen = CanvasRenderingContext2D;

/** Labels that are seen, with the line each is drawn on: pushed apart so that none covers another. */
export interface PlacedLabel {
  readonly id: string;
  readonly cueLine: number;
  readonly line: number;
}

const APART = 24;

type Wanted = Pick<Scene, 'passages' | 'scale' | 'height' | 'chosen'>;
interface Row {
  readonly id: string;
  readonly cueLine: number;
  readonly rank: number;
}

/**
 * Which passages get a label and where. Where all that are seen have room they are pushed apart; otherwise the chosen
 * one, then chapters, then steps get one as long as there is room beside their own cue.
 */
export function placeLabels({ passages, scale, height, chosen }: Wanted): PlacedLabel[] {
  const seen = passages.flatMap(({ id, cue, kind }): Row[] => {
    if (!cue) return [];
    const line = lineOf(scale, cue.at);
    return line > -APART && line < height + APART
      ? [{ id, cueLine: line, rank: id === chosen ? 0 : kind === 'chapter' ? 1 : 2 }]
      : [];
  });
  return seen.length * APART <= height ? pushApart(seen, height) : besideTheirCues(seen, height);
}

function pushApart(seen: readonly Row[], height: number): PlacedLabel[] {
  const rows = seen.toSorted((a, b) => a.cueLine - b.cueLine || a.rank - b.rank);
  const lines: number[] = [];
  for (const { cueLine } of rows) {
    // A balloon is never cut in two by the edge its cue is close to.
    const wanted = cueLine >= 0 && cueLine < APART / 2 ? APART / 2 : cueLine;
    lines.push(Math.max(wanted, (lines.at(-1) ?? Number.NEGATIVE_INFINITY) + APART));
  }
  for (let i = lines.length - 1; i >= 0; i--) {
    const most = (lines[i + 1] ?? height + APART / 2) - APART;
    if ((lines[i] ?? 0) > most && most >= (rows[i]?.cueLine ?? 0) - height)
      lines[i] = Math.min(lines[i] ?? 0, Math.max(most, APART / 2));
  }
  return rows.map(({ id, cueLine }, i) => ({ id, cueLine, line: lines[i] ?? cueLine }));
}

function besideTheirCues(seen: readonly Row[], height: number): PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  // Lines that are taken, by stretches of one label's height: at most two of them can be in a new one's way.
  const taken = new Map<number, number>();
  for (const { id, cueLine } of seen.toSorted((a, b) => a.rank - b.rank || a.cueLine - b.cueLine)) {
    const line = Math.min(Math.max(cueLine, APART / 2), height - APART / 2);
    const slot = Math.floor(line / APART);
    const near = [slot - 1, slot, slot + 1].flatMap((at) => taken.get(at) ?? []);
    if (near.some((other) => Math.abs(other - line) < APART)) continue;
    taken.set(slot, line);
    placed.push({ id, cueLine, line });
  }
  return placed.toSorted((a, b) => a.line - b.line);
}

/** The lesson's chapters and steps: a balloon each, with a leader to its cue. */
export function drawLabels(pen: Pen, scene: Scene, columns: Columns): void {
  const { passages, numbers, chosen } = scene;
  const named = new Map(passages.map((passage) => [passage.id, passage]));
  const labels = placeLabels(scene).flatMap(({ id, cueLine, line }): Label[] => {
    const passage = named.get(id);
    if (!passage) return [];
    const chapter = passage.kind === 'chapter';
    return [{ cueLine, line, number: numbers.get(id) ?? '', title: passage.title, chapter, on: id === chosen }];
  });
  drawLeaders(pen, scene, columns, labels);
  for (const label of labels) balloon(pen, columns, label, scene.look);
  drawWords(pen, scene, columns, labels);
  drawFindings(pen, scene, columns);
}

interface Label {
  readonly cueLine: number;
  readonly line: number;
  readonly number: string;
  readonly title: string;
  readonly chapter: boolean;
  readonly on: boolean;
}

function drawLeaders(
  pen: Pen,
  { passages, scale, height, look }: Scene,
  columns: Columns,
  all: readonly Label[],
): void {
  const edge = columns.words.x + columns.words.w;
  const leader = ({ cueLine, line }: Label) => {
    pen.moveTo(edge + 1, cueLine);
    pen.lineTo(edge + 8, cueLine);
    pen.lineTo(columns.labels.x - 11, line);
  };
  pen.strokeStyle = look.line;
  pen.lineWidth = 1;
  pen.beginPath();
  for (const { cue } of passages) {
    const y = cue ? lineOf(scale, cue.at) : -9;
    if (y < -1 || y > height) continue;
    pen.moveTo(edge, y);
    pen.lineTo(edge + 8, y);
  }
  for (const label of all) if (!label.on) leader(label);
  pen.stroke();
  pen.strokeStyle = look.blue;
  pen.lineWidth = 2;
  pen.beginPath();
  for (const label of all) if (label.on) leader(label);
  pen.stroke();
}

function balloon(pen: Pen, { labels }: Columns, { line, number, chapter, on }: Label, look: Scene['look']): void {
  const x = labels.x + 2;
  // Wide enough for the figures: 12.10 has five.
  const half = Math.max(13, 5 + number.length * 3.3);
  pen.beginPath();
  if (chapter) pen.rect(x - half + 1, line - 10, half * 2 - 2, 20);
  else pen.ellipse(x, line, half, 10, 0, 0, Math.PI * 2);
  pen.fillStyle = on ? look.blue : look.sheet;
  pen.fill();
  pen.strokeStyle = on ? look.blue : look.line;
  pen.lineWidth = chapter ? 2 : 1;
  pen.stroke();
}

function drawWords(pen: Pen, { look }: Scene, { labels }: Columns, all: readonly Label[]): void {
  pen.textBaseline = 'middle';
  // Setting a font costs more than writing with it: all words of one font in a row.
  pen.font = `600 10.5px ${look.figures}`;
  pen.textAlign = 'center';
  for (const { number, line, on } of all) {
    pen.fillStyle = on ? look.onBlue : look.ink;
    pen.fillText(number, labels.x + 2, line + 0.5);
  }
  pen.textAlign = 'left';
  for (const heavy of [false, true]) {
    pen.font = `${heavy ? 700 : 450} 13px ${look.face}`;
    for (const { title, line, chapter, on } of all) {
      if ((chapter || on) !== heavy) continue;
      pen.fillStyle = on ? look.blue : look.ink;
      pen.fillText(fitText(pen, title, labels.w - 28, heavy), labels.x + 22, line);
    }
  }
}

function drawFindings(pen: Pen, { findings, scale, height, look }: Scene, { sound }: Columns): void {
  const edge = sound.x + sound.w;
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

/** Forgets what was measured: another face was loaded. */
export function forgetWidths(): void {
  widths.clear();
}

/** Part numbers: chapters are 1, 2, 3; the steps of chapter 2 are 2.1, 2.2. */
export function numbersOf(passages: Scene['passages']): ReadonlyMap<string, string> {
  return new Map(
    passages.map(({ id, chapter, step }) => [
      id,
      step === undefined ? String(chapter + 1) : `${chapter + 1}.${step + 1}`,
    ]),
  );
}

const widths = new Map<string, string>();

/** A text cut to a width; measured once for each weight. */
function fitText(pen: Pen, text: string, width: number, heavy: boolean): string {
  const key = `${heavy} ${Math.round(width)} ${text}`;
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
