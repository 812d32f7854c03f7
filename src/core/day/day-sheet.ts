import type { Choice, LessonPart, PartLength, PlannedClass } from '../fit/index.ts';
import type { SignalWord } from '../model/index.ts';
import type { LessonData } from '../pages/index.ts';

/** A value as the room reads it. */
export interface ValueInRoom {
  readonly title: string;
  /** Said before the value where several rows share an id. */
  readonly whose: string;
  readonly primary: string;
  readonly secondary: string;
  readonly critical: boolean;
  /** Model years it holds for. */
  readonly years: { readonly from: number; readonly to: number };
  /** It holds for none of the lesson's model years: shown only when somebody asks for its year. */
  readonly otherYears?: true;
}

/** A stretch of a lesson that is shown in one go: a step, or what stands before the first step of a chapter. */
export interface Clip {
  readonly lesson: string;
  /** Id of the step, or of the chapter. */
  readonly id: string;
  /** `2.3`, or `2` for the beginning of a chapter. */
  readonly number: string;
  readonly title: string;
  readonly chapter: string;
  /** Programme seconds. */
  readonly start: number;
  readonly end: number;
  readonly signals: readonly { readonly word: SignalWord; readonly text: string }[];
  readonly values: readonly ValueInRoom[];
  readonly keyPoints: readonly { readonly text: string; readonly why?: string }[];
  /** Behind it the programme stands still and the class talks. */
  readonly talk?: { readonly minutes: number; readonly text: string };
}

/** One thing to hand out, and to get back. */
export interface KitOnDay {
  /** `tool torque-wrench`. */
  readonly key: string;
  readonly title: string;
  readonly count: number;
  /** It has to come back. */
  readonly returns: boolean;
}

/** What the instructor is shown of a block besides its times. */
export interface BlockOnDay {
  readonly id: string;
  readonly who: string;
  readonly bay: string;
  readonly note: string;
  /** What those do who wait for their turn. */
  readonly meanwhile: string;
  /** By treatment. */
  readonly kit: Readonly<Record<string, readonly KitOnDay[]>>;
  /** What is shown, by treatment, in order. */
  readonly clips: Readonly<Record<string, readonly Clip[]>>;
}

/** Everything that a class day is run from, in plain values: made once, before the class, and good without a network. */
export interface DaySheet {
  readonly shopClass: PlannedClass & { readonly title: string; readonly date: string };
  /** The planned start, milliseconds since 1970. */
  readonly startsAt: number;
  readonly parts: readonly { readonly part: LessonPart; readonly length: PartLength }[];
  /** How the plan gives each block. */
  readonly choice: Choice;
  readonly blocks: readonly BlockOnDay[];
  /** Every step of the lessons that the class is about, to be shown by its number. */
  readonly steps: readonly Clip[];
  /** What plays, by lesson. */
  readonly films: Readonly<Record<string, LessonData>>;
  /** What comes back in the end, with the most that is out at one time. */
  readonly kit: readonly KitOnDay[];
}
