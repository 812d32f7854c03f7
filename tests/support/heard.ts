import { readFileSync } from 'node:fs';
import { findQuantities, type HeardQuantity } from '../../src/core/heard/index.ts';

/** A sentence with the quantities that are in it, as `kind min..max unit`. */
export interface Labelled {
  readonly text: string;
  readonly expected: readonly string[];
}

/** The labelled sentences of a file: `sentence => kind min..max unit; …`, `-` for none. */
export function labelled(path: string): Labelled[] {
  return readFileSync(path, 'utf8')
    .split('\n')
    .filter((line) => line.includes('=>') && !line.startsWith('#'))
    .map((line) => {
      const [text = '', labels = ''] = line.split(' => ');
      return { text, expected: labels.trim() === '-' ? [] : labels.split(';').map((each) => tidy(each.trim())) };
    });
}

/** Numbers of a label to twelve figures. */
function tidy(written: string): string {
  return written.replace(/\d+\.\d+/g, (figures) => String(Number(Number(figures).toPrecision(12))));
}

/** A heard quantity as a label; numbers to twelve figures. */
export function label({ kind, min, max, unit }: HeardQuantity): string {
  const say = (value: number | undefined) => (value === undefined ? '' : String(Number(value.toPrecision(12))));
  return `${kind} ${say(min)}..${say(max)} ${unit}`;
}

export interface Score {
  readonly sentences: number;
  readonly traps: number;
  readonly found: number;
  readonly right: number;
  readonly wanted: number;
  readonly precision: number;
  readonly recall: number;
  readonly misses: readonly { text: string; missed: readonly string[]; wrong: readonly string[] }[];
}

/** Precision and recall over labelled sentences: a quantity counts when kind, both limits and unit are right. */
export function score(sentences: readonly Labelled[]): Score {
  let [found, right, wanted] = [0, 0, 0];
  const misses: Score['misses'][number][] = [];
  for (const { text, expected } of sentences) {
    const open = [...expected];
    const wrong: string[] = [];
    for (const heard of findQuantities(text)) {
      const at = open.indexOf(label(heard));
      if (at >= 0) open.splice(at, 1);
      else wrong.push(label(heard));
    }
    found += expected.length - open.length + wrong.length;
    right += expected.length - open.length;
    wanted += expected.length;
    if (open.length > 0 || wrong.length > 0) misses.push({ text, missed: open, wrong });
  }
  const traps = sentences.filter(({ expected }) => expected.length === 0).length;
  return {
    sentences: sentences.length,
    traps,
    found,
    right,
    wanted,
    precision: right / found,
    recall: right / wanted,
    misses,
  };
}
