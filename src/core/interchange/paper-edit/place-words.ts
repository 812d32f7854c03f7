import { diffArrays } from 'diff';
import { firstWhere, TICKS_PER_SECOND } from '../../time/index.ts';
import type { MarkedWord, PaperMarks, Segment } from './paper-marks.ts';
import type { PaperWord } from './paper-words.ts';

/** Printed times are this exact, ticks. */
const ROUNDING = TICKS_PER_SECOND / 1000;
/** Where a time was changed by hand, words are looked for so far to either side of it, ticks. */
const NEAR = 2 * TICKS_PER_SECOND;
/** Words looked at beside those that a line has: some may have been left out. */
const BESIDE = 40;
/** More changes than this are no correction. */
const MOST_CHANGES = 2000;
/** So many words in a row, found once in the recording, say where a line belongs whose time is wrong. */
const IN_A_ROW = 3;

/** Where the words of a paper lie among those of the recording. */
export interface PlacedWords {
  /** For each word of the paper the first of the recording that it stands for, and behind the last; −1 where it has none. */
  readonly first: Int32Array;
  readonly behind: Int32Array;
  /** Words of the recording between others of one run of signs, which the paper leaves out. */
  readonly between: readonly { readonly from: number; readonly to: number; readonly like: MarkedWord }[];
  readonly lost: readonly Segment[];
  /** How many are written differently. */
  readonly differing: number;
}

/** Finds the words of a paper among those of the recording: by the time of their line, then by their text. */
export function placeWords({ words, segments }: PaperMarks, spoken: readonly PaperWord[]): PlacedWords {
  const times = segments.flatMap(({ at }) => (at === undefined ? [] : [at])).toSorted((a, b) => a - b);
  const placing = new Placing(words, spoken);
  for (const segment of segments) {
    if (segment.from === segment.to) continue;
    const { at } = segment;
    const count = segment.to - segment.from;
    const from = at === undefined ? placing.reached : placing.at(at - ROUNDING);
    const next = at === undefined ? undefined : times[firstWhere(times, (one) => one > at)];
    const until = next === undefined ? spoken.length : placing.at(next - ROUNDING);
    const enough = Math.min(until, from + 3 * count + BESIDE);
    const wide = at === undefined ? from : placing.at(at - NEAR);
    const beyond = next === undefined ? spoken.length : placing.at(next + NEAR);
    const placed =
      placing.exactly(segment, from) ||
      placing.alike(segment, from, enough) ||
      (until - from === count && at !== undefined && placing.oneByOne(segment, from)) ||
      placing.alike(segment, wide, Math.min(beyond, wide + 3 * count + BESIDE)) ||
      placing.byText(segment);
    if (!placed) placing.lost.push(segment);
  }
  return placing;
}

class Placing implements PlacedWords {
  readonly first: Int32Array;
  readonly behind: Int32Array;
  readonly between: { from: number; to: number; like: MarkedWord }[] = [];
  readonly lost: Segment[] = [];
  differing = 0;
  /** Behind the last word that was placed. */
  reached = 0;
  readonly #words: readonly MarkedWord[];
  readonly #spoken: readonly PaperWord[];
  #rows: ReadonlyMap<string, number> | undefined;

  constructor(words: readonly MarkedWord[], spoken: readonly PaperWord[]) {
    this.#words = words;
    this.#spoken = spoken;
    this.first = new Int32Array(words.length).fill(-1);
    this.behind = new Int32Array(words.length).fill(-1);
  }

  /** The first word of the recording that begins at or after a moment, ticks. */
  at(moment: number): number {
    return firstWhere(this.#spoken, (word) => word.at.start >= moment);
  }

  exactly({ from, to }: Segment, start: number): boolean {
    for (let i = from; i < to; i++) if (this.#spoken[start + i - from]?.bare !== this.#words[i]?.bare) return false;
    for (let i = from; i < to; i++) this.#place(i, start + i - from, start + i - from + 1);
    return true;
  }

  /** As many words as were said in that time stand for them, whatever they are now. */
  oneByOne({ from, to }: Segment, start: number): boolean {
    for (let i = from; i < to; i++) this.#place(i, start + i - from, start + i - from + 1);
    this.differing += to - from;
    return true;
  }

  /** Words of which half at least are there; those that differ stand for what lies between. */
  alike({ from, to }: Segment, start: number, end: number): boolean {
    const there = this.#spoken.slice(start, end).map(({ bare }) => bare);
    const here = this.#words.slice(from, to).map(({ bare }) => bare);
    const changes = diffArrays(there, here, { maxEditLength: MOST_CHANGES });
    if (!changes) return false;
    const same = changes.reduce((sum, { added, removed, count }) => sum + (added || removed ? 0 : count), 0);
    if (2 * same < here.length) return false;
    let [said, word] = [start, from];
    let gone = 0;
    let fresh = 0;
    let met = false;
    const settle = (last: boolean) => {
      if (fresh > 0) this.#corrected({ said, gone, word, fresh, met, last });
      else if (gone > 0 && met && !last) this.#leftOut(said, gone, word);
      [said, word] = [said + gone, word + fresh];
      [gone, fresh] = [0, 0];
    };
    for (const { added, removed, count } of changes) {
      if (added) fresh += count;
      else if (removed) gone += count;
      else {
        settle(false);
        for (let i = 0; i < count; i++) this.#place(word++, said, ++said);
        met = true;
      }
    }
    settle(true);
    return true;
  }

  #corrected(change: { said: number; gone: number; word: number; fresh: number; met: boolean; last: boolean }): void {
    const { said, gone, word, fresh, met, last } = change;
    for (let i = 0; i < fresh; i++) {
      // At the edges nothing says how far a correction reaches: it goes word by word.
      const one = !met ? said + gone - fresh + i : last ? said + i : undefined;
      const a = one ?? said + Math.floor((i * gone) / fresh);
      const b = one === undefined ? Math.max(a + 1, said + Math.floor(((i + 1) * gone) / fresh)) : one + 1;
      if (gone > 0 && a >= said && b <= said + gone) {
        this.#place(word + i, a, b);
        this.differing++;
      }
    }
  }

  /** What was left out between two words of one run goes with them. */
  #leftOut(said: number, gone: number, word: number): void {
    const [before, after] = [this.#words[word - 1], this.#words[word]];
    if (before && after && before.run > 0 && before.run === after.run)
      this.between.push({ from: said, to: said + gone, like: before });
  }

  /** By a few words in a row that are said once in the whole recording. */
  byText(segment: Segment): boolean {
    const row = (words: readonly { readonly bare: string }[], i: number) =>
      words
        .slice(i, i + IN_A_ROW)
        .map(({ bare }) => bare)
        .join(' ');
    if (!this.#rows) {
      const rows = new Map<string, number>();
      this.#spoken.forEach((_, i) => {
        const key = row(this.#spoken, i);
        rows.set(key, rows.has(key) ? -1 : i);
      });
      this.#rows = rows;
    }
    const count = segment.to - segment.from;
    for (let i = segment.from; i + IN_A_ROW <= segment.to; i++) {
      const found = this.#rows.get(row(this.#words, i)) ?? -1;
      if (found < 0) continue;
      const start = Math.max(0, found - (i - segment.from) - IN_A_ROW);
      return this.alike(segment, start, start + 2 * count + BESIDE);
    }
    return false;
  }

  #place(word: number, first: number, behind: number): void {
    this.first[word] = first;
    this.behind[word] = behind;
    this.reached = behind;
  }
}
