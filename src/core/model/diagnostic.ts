import type { Place } from './place.ts';

export const SEVERITIES = ['error', 'warning', 'info'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A replacement of one stretch of text. */
export interface TextEdit {
  readonly place: Place;
  readonly text: string;
}

/** The edit that mends a fault. Only a `sure` one may be applied unasked. */
export interface Fix {
  readonly title: string;
  readonly sure: boolean;
  readonly edits: readonly TextEdit[];
}

/** What is told about the content: what is wrong, where, why it matters, what to do. */
export interface Diagnostic {
  /** Rule id; names the fault and is never renamed. */
  readonly rule: string;
  readonly severity: Severity;
  readonly place: Place;
  /** Stands alone in one line, small letter, no full stop. */
  readonly message: string;
  readonly why: string;
  /** States what to do; never asks. */
  readonly help: string;
  readonly fix?: Fix;
  /** Another place that explains this one. */
  readonly see?: { readonly place: Place; readonly note: string };
  /** What else follows from the same cause, told here and not by itself. */
  readonly also?: readonly { readonly rule: string; readonly place: Place; readonly message: string }[];
}
