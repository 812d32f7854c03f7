import type { Caption } from '../model/index.ts';
import type { EditList, Ticks } from '../time/index.ts';

/** A chapter or step as another program's file names it. */
export interface ImportedMark {
  readonly kind: 'chapter' | 'step';
  readonly title: string;
  /** Where the file has one. */
  readonly id?: string;
  /** Recording ticks. */
  readonly at: Ticks<'recording'>;
  readonly until?: Ticks<'recording'>;
  /** Of this mark, where it differs from that of the file: see {@link Imported.precision}. */
  readonly precision?: number;
}

/** What a file brought: each part only where the file has it. */
export interface Imported {
  readonly edit?: EditList;
  readonly marks?: readonly ImportedMark[];
  readonly captions?: readonly Caption[];
  /** The clock their times were on in the file. */
  readonly captionClock?: 'recording' | 'programme';
  /** Style and region blocks of a WebVTT file, as written. */
  readonly captionBlocks?: readonly string[];
  /** How exact its times are, ticks: what lies nearer than this to a time that is there already is the same. */
  readonly precision?: number;
  /** What could not be carried, one line each; nothing is dropped in silence. */
  readonly notes: readonly string[];
}

/** Collects notes; alike ones are counted instead of repeated. */
export class Notes {
  readonly #counts = new Map<string, number>();

  /** More kinds than anybody reads are counted together. */
  add(text: string): void {
    const note = this.#counts.size < 1000 || this.#counts.has(text) ? text : 'and more, of other kinds';
    this.#counts.set(note, (this.#counts.get(note) ?? 0) + 1);
  }

  all(): string[] {
    const most = 50;
    const lines = [...this.#counts].map(([note, count]) => (count > 1 ? `${note} (${count} times)` : note));
    return lines.length > most ? [...lines.slice(0, most), `and ${lines.length - most} more kinds of notes`] : lines;
  }
}

/** Longest text that is read, UTF-16 units: hours of edit lists and transcripts take a tenth of it. */
export const MOST_TEXT = 32_000_000;

/** Most events, clips or marks that are read: a day of footage has a tenth of them. */
export const MOST_EVENTS = 10_000;

/** Most lines of a list that are looked at. */
export const MOST_LINES = 200_000;

/** Short enough for a message, on one line. */
export function brief(text: string): string {
  const line = text.slice(0, 200).replaceAll(/\s+/g, ' ').trim();
  return line.length > 48 ? `${line.slice(0, 47)}…` : line;
}
