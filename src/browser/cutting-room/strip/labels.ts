import { lineOf } from '../../../core/edit/index.ts';
import type { Columns } from './columns.ts';
import type { Scene } from './scene.ts';
import { titleLines } from './title-lines.ts';

type Pen = CanvasRenderingContext2D;

/** Labels that are seen, with the line each is drawn on: pushed apart so that none covers another. */
export interface PlacedLabel {
  readonly id: string;
  readonly cueLine: number;
  readonly line: number;
}

/** From one line of a title to the next, CSS pixels. */
const LEADING = 14;
/** So far apart are labels at least, that each has two lines of its title. */
const APART = 2 * LEADING + 4;
/** More lines than that take only what is chosen or pointed at. */
const MOST_LINES = 3;

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

/**
 * The lesson's chapters and steps: a balloon each, with a leader to its cue. A title has the lines its neighbours leave
 * it; the one that is pointed at, otherwise the chosen one, is written whole over those of its neighbours.
 */
export function drawLabels(pen: Pen, scene: Scene, columns: Columns): void {
  const labels = layLabels(pen, scene, columns.labels.w - TITLE_AT - 6);
  drawLeaders(pen, scene, columns, labels);
  for (const label of labels) balloon(pen, columns, label, scene.look);
  drawWords(pen, scene, columns, labels);
  drawFindings(pen, scene, columns);
}

/** Where titles begin in their column: behind the balloon. */
const TITLE_AT = 22;

interface Label {
  readonly id: string;
  readonly cueLine: number;
  readonly line: number;
  readonly number: string;
  readonly title: string;
  readonly chapter: boolean;
  readonly on: boolean;
  readonly lines: readonly string[];
  /** The middle of its lines. */
  readonly middle: number;
}

/** What the outline of the strip takes at its edges, CSS pixels. */
const EDGE = 3;

function layLabels(pen: Pen, scene: Scene, width: number): Label[] {
  const { passages, numbers, chosen, pointedAt, height, look } = scene;
  const named = new Map(passages.map((passage) => [passage.id, passage]));
  const placed = placeLabels(scene);
  const front = placed.some(({ id }) => id === pointedAt) ? pointedAt : chosen;
  const labels = placed.flatMap((place, i): Label[] => {
    const passage = named.get(place.id);
    if (!passage) return [];
    const { id, title, kind } = passage;
    const [chapter, on] = [kind === 'chapter', id === chosen];
    // Half of the way to its neighbours on both sides is its own.
    const top = ((placed[i - 1]?.line ?? -place.line) + place.line) / 2;
    const bottom = ((placed[i + 1]?.line ?? 2 * height - place.line) + place.line) / 2;
    const most = id === front ? 99 : Math.min(MOST_LINES, Math.max(1, Math.floor((bottom - top - 2) / LEADING)));
    const lines = linesOf(pen, look, title, width, most, chapter || on);
    const half = (lines.length * LEADING) / 2;
    // None is cut in two by the edge of the strip, unless its balloon is.
    const seen = place.line >= 0 && place.line <= height;
    const [least, last] = id === front ? [half + EDGE, height - half - EDGE] : [top + half, bottom - half];
    const middle = seen ? Math.max(least, Math.min(place.line, last)) : place.line;
    return [{ ...place, number: numbers.get(id) ?? '', title, chapter, on, lines, middle }];
  });
  const over = labels.find(({ id }) => id === front);
  if (!over) return labels;
  const covered = ({ id, lines, middle }: Label) =>
    id !== front && Math.abs(middle - over.middle) < ((lines.length + over.lines.length) * LEADING) / 2;
  return labels.map((label) => (covered(label) ? { ...label, lines: [] } : label));
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
    pen.font = titleFont(look, heavy);
    for (const { lines, middle, chapter, on } of all) {
      if ((chapter || on) !== heavy) continue;
      pen.fillStyle = on ? look.blue : look.ink;
      for (const [i, words] of lines.entries())
        pen.fillText(words, labels.x + TITLE_AT, middle + (i - (lines.length - 1) / 2) * LEADING);
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

const widths = new Map<string, readonly string[]>();

function titleFont({ face }: Scene['look'], heavy: boolean): string {
  return `${heavy ? 700 : 450} 13px ${face}`;
}

/** The lines of a title; measured once for each weight. The pen is left with the font of that weight. */
function linesOf(
  pen: Pen,
  look: Scene['look'],
  title: string,
  width: number,
  most: number,
  heavy: boolean,
): readonly string[] {
  const key = `${heavy} ${Math.round(width)} ${most} ${title}`;
  const known = widths.get(key);
  if (known) return known;
  pen.font = titleFont(look, heavy);
  const laid = titleLines(title, width, most, (text) => pen.measureText(text).width);
  if (widths.size > 4000) widths.clear();
  widths.set(key, laid);
  return laid;
}
