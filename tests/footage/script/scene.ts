/** What a stretch of a recording is: the first two stay in the programme, the others are cut. */
export type SceneKind = 'chapter' | 'step' | 'slate' | 'idle' | 'retake' | 'dropped';

/** One stretch of a recording as it was shot. */
export interface Scene {
  readonly kind: SceneKind;
  /** Id of the chapter or step it shows; of an idle stretch or a slate, what is seen. */
  readonly of: string;
  /** s */
  readonly seconds: number;
}

/** One recording in shooting order. */
export interface Shoot {
  /** Id of the recording and of the lesson it was shot for. */
  readonly id: string;
  /** Timecode of the first frame, and whether the camera counted drop-frame. */
  readonly start: string;
  readonly dropFrame: boolean;
  /** Frames of each camera file but the last, which takes the rest. */
  readonly splits: readonly number[];
  readonly scenes: readonly Scene[];
}

const scene =
  (kind: SceneKind) =>
  (of: string, seconds: number): Scene => ({ kind, of, seconds });

/** The words that open a chapter. */
export const chapter = scene('chapter');
/** A step as it stays in the programme; one that was interrupted comes twice. */
export const step = scene('step');
/** A slate with its clap. */
export const slate = scene('slate');
/** Nothing of use: an empty bench, someone adjusting the camera. */
export const idle = scene('idle');
/** A first attempt at what is said again right after it. */
export const retake = scene('retake');
/** A wrench falls, somebody laughs. */
export const dropped = scene('dropped');

/** True for what stays in the programme. */
export function isKept({ kind }: Scene): boolean {
  return kind === 'chapter' || kind === 'step';
}
