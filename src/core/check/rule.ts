import type { HeardSpeech } from '../media/index.ts';
import type { Diagnostic, Fix, Place, Severity, Shop } from '../model/index.ts';
import type { AroundLessons, OneLesson, OneMachine, OneRecording } from './alone.ts';
import type { Sample } from './sample.ts';

/** What a rule may know besides the shop. */
export interface CheckContext {
  /** The day of the check, YYYY-MM-DD; it comes from outside, as core has no clock. */
  readonly today: string;
  /** Where somebody is heard, by recording; only those whose sound was looked through. */
  readonly speech?: ReadonlyMap<string, HeardSpeech>;
}

/** What a rule found. */
export interface Finding {
  readonly place: Place;
  /** Stands alone in one line, small letter, no full stop. */
  readonly message: string;
  /** States what to do; never asks. */
  readonly help: string;
  readonly fix?: Fix;
  readonly see?: NonNullable<Diagnostic['see']>;
  /** Rows and tools it takes for right: where one of them has a finding of its own, this one is told with it. */
  readonly builtOn?: readonly Place[];
  /** Says nothing of its own where something in these places is mistyped: what is missing may stand there. */
  readonly unlessMistyped?: readonly Place[];
  /** Where this finding weighs other than its rule usually does. */
  readonly severity?: Severity;
}

/**
 * One thing that can be wrong with a shop's content: its name, whom it protects, an example of each kind, and a walk,
 * which sees as little as it needs. What the walks of one lesson, of one recording, of one machine and around them find
 * is kept until something that they were given changes, so only the last is told the day; the walk of the whole shop is
 * made at every check.
 */
export interface Rule {
  /** Names the fault, such as `cue-in-cut`; never renamed, never starts with `no-`. */
  readonly id: string;
  readonly severity: Severity;
  /** Why it matters, for people. */
  readonly why: string;
  /** Laid over the sound small shop of sample.ts, this has the fault, and no other. */
  readonly bad: Sample;
  /** How the finding begins: `line:column message`. */
  readonly says: string;
  /** Laid over it, this has no fault at all. */
  readonly good: Sample;
  /** Each lesson by itself. */
  lesson?(one: OneLesson): Iterable<Finding>;
  /** Each recording by itself, and where somebody is heard in it, if it was looked through. */
  recording?(one: OneRecording, heard: HeardSpeech | undefined): Iterable<Finding>;
  /** Each machine's table by itself. */
  machine?(one: OneMachine): Iterable<Finding>;
  /** What lies beside lessons and recordings: classes, the kit, words, tables by the day. */
  around?(shop: AroundLessons, today: string): Iterable<Finding>;
  /** All that lies outside of these, or between them. In a large shop it names the lessons that it looks into. */
  check?(shop: Shop, context: CheckContext): Iterable<Finding>;
}

/** A rule, checked against its type. */
export function rule(definition: Rule): Rule {
  return definition;
}
