import type { Landmarks, Passage, Peaks, Scale } from '../../../core/edit/index.ts';
import type { EditList, Range, Ticks } from '../../../core/time/index.ts';
import type { SpokenWord } from '../../../core/words/index.ts';

/** Small pictures of the recording, in order. */
export interface Thumbs {
  /** When each was, in order. */
  readonly times: readonly Ticks<'recording'>[];
  /** Where each stands, in which sheet. */
  readonly cells: readonly {
    readonly sheet: ImageBitmap;
    readonly x: number;
    readonly y: number;
    readonly w: number;
    readonly h: number;
  }[];
}

/** What there is to show, wherever one looks. */
export interface Contents {
  readonly length: Ticks<'recording'>;
  readonly kept: EditList;
  readonly cuts: readonly Range<'recording'>[];
  readonly passages: readonly Passage[];
  /** Part numbers by id: chapters are 1, 2, 3; the steps of chapter 2 are 2.1, 2.2. */
  readonly numbers: ReadonlyMap<string, string>;
  readonly chosen: string | undefined;
  readonly marks: { readonly in?: number | undefined; readonly out?: number | undefined };
  /** Cuts that are proposed. */
  readonly suggested: readonly Range<'recording'>[];
  /** Where steps are proposed to begin. */
  readonly proposedSteps: readonly Ticks<'recording'>[];
  readonly found: Landmarks;
  readonly silences: readonly Range<'recording'>[];
  readonly speech: readonly Range<'recording'>[];
  /** Captions that a machine wrote and nobody has read. */
  readonly unread: readonly Range<'recording'>[];
  /** What is said, word by word, in order. */
  readonly spoken: readonly SpokenWord[];
  readonly peaks: Peaks | undefined;
  readonly thumbs: Thumbs | undefined;
  readonly findings: readonly { readonly at: number; readonly severity: string }[];
  readonly look: Look;
}

/** Everything the strip shows, apart from the playhead. */
export interface Scene extends Contents {
  readonly scale: Scale;
  readonly width: number;
  readonly height: number;
  /** The passage whose label the pointer is on. */
  readonly pointedAt: string | undefined;
  /** Label of a moment for the ruler. */
  readonly label: (moment: number) => string;
  /** Moments that the ruler writes, so many lines apart at least. */
  readonly marksOf: (scale: Scale, lines: number, apart: number) => readonly number[];
}

/** Colours and face, read from the page's own styles. */
export interface Look {
  readonly paper: string;
  readonly sheet: string;
  readonly ink: string;
  readonly soft: string;
  readonly hair: string;
  readonly line: string;
  readonly blue: string;
  readonly onBlue: string;
  readonly wash: string;
  readonly warning: string;
  readonly danger: string;
  readonly face: string;
  readonly figures: string;
}

export function readLook(element: Element): Look {
  const style = getComputedStyle(element);
  const of = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    paper: of('paper'),
    sheet: of('sheet'),
    ink: of('ink'),
    soft: of('soft'),
    hair: of('hair'),
    line: of('line'),
    blue: of('blue'),
    onBlue: of('on-blue'),
    wash: of('wash'),
    warning: of('warning'),
    danger: of('danger'),
    face: of('face'),
    figures: of('figures'),
  };
}
