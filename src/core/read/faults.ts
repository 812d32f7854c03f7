import type { Diagnostic, Place, Severity } from '../model/index.ts';

/** What the reader itself can find wrong: what holds before there is a model to walk. */
export interface Fault {
  readonly severity: Severity;
  /** Why it matters, for people. */
  readonly why: string;
}

export const FAULTS = {
  'yaml-syntax': { severity: 'error', why: 'Nothing after this point can be trusted to mean what was meant.' },
  'mdx-syntax': { severity: 'error', why: 'The lesson cannot be read, so none of its values is checked or shown.' },
  'text-not-read': {
    severity: 'error',
    why: 'What is not read is neither checked nor shown. A warning in it would go missing.',
  },
  'key-unknown': { severity: 'error', why: 'Whatever is written under an unknown name is ignored.' },
  'key-missing': { severity: 'error', why: 'Without it the rest cannot be used.' },
  'value-wrong': { severity: 'error', why: 'A value of the wrong kind would be shown or computed wrongly.' },
  'placeholder-left': {
    severity: 'error',
    why: 'A blank from the starting file would be shown as if somebody had written it.',
  },
  'time-wrong': { severity: 'error', why: 'A time that is read wrongly shows the attendee another moment.' },
  'range-reversed': { severity: 'error', why: 'A range that ends before it starts keeps nothing.' },
  'element-unknown': {
    severity: 'error',
    why: 'The page shows nothing of it, where something was meant.',
  },
  'heading-empty': { severity: 'error', why: 'Nobody could name, find or link to what stands under it.' },
  'heading-level': {
    severity: 'error',
    why: 'The title of a lesson stands in its front matter; a second one would be read out twice.',
  },
  'step-before-chapter': { severity: 'error', why: 'The step would stand on no page and in no class.' },
  'code-in-lesson': {
    severity: 'error',
    why: 'Lessons are data, not programs: nothing in somebody else’s folder may run when you open it.',
  },
  'address-unsafe': {
    severity: 'error',
    why: 'A link can carry code, and a picture from elsewhere tells strangers who is reading and is gone without a network.',
  },
  'picture-missing': { severity: 'error', why: 'The page would show a broken picture where something has to be seen.' },
  'attribute-wrong': {
    severity: 'error',
    why: 'An attribute nobody reads, or one that is missing, leaves the element without its meaning.',
  },
  'caption-unreadable': { severity: 'error', why: 'People who read the captions would miss these words.' },
  'caption-time-loose': {
    severity: 'warning',
    why: 'A browser that gets this file as it is skips the caption without a word.',
  },
  'caption-not-webvtt': {
    severity: 'error',
    why: 'A browser that gets this file as it is shows none of its captions.',
  },
  'caption-codes-dropped': {
    severity: 'info',
    why: 'WebVTT has no styling tags of this kind; all the words are still there.',
  },
  'file-ignored': { severity: 'error', why: 'Nothing reads this file, so nobody sees what it says.' },
  'file-missing': {
    severity: 'error',
    why: 'Without it the shop has no name, or nothing in it is known to the lessons.',
  },
  'file-empty': { severity: 'error', why: 'Whatever refers to it would find nothing.' },
  'file-unreadable': {
    severity: 'error',
    why: 'Nobody sees what it says, and nothing that refers to it can be checked.',
  },
  'file-encoding': {
    severity: 'error',
    why: 'Letters would be read as other letters, and writing the file back would lose them.',
  },
} as const satisfies Readonly<Record<string, Fault>>;
export type FaultId = keyof typeof FAULTS;

/** A diagnostic of the reader. */
export function tell(rule: FaultId, place: Place, message: string, help: string): Diagnostic {
  const { severity, why } = FAULTS[rule];
  return { rule, severity, place, message, why, help };
}
