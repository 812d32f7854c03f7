import { common, type EditList, editList, type Range, type Ticks, ticks, without } from '../time/index.ts';

/** How it was found out where somebody speaks: by a network made for it, or by loudness, which takes tools for speech. */
export type SpeechBy = 'network' | 'loudness';

/** Where somebody speaks in a recording, and how that was found out. */
export interface HeardSpeech {
  readonly by: SpeechBy;
  readonly stretches: EditList;
}

/** Every moment of a recording is one of these. */
export interface Presence {
  readonly talk: EditList;
  /** Nobody speaks, but something is heard, or moves in the picture. */
  readonly work: EditList;
  /** Nobody speaks, nothing is heard over the noise of the room, and nothing moves. */
  readonly nobody: EditList;
}

/**
 * Divides a recording into talk, work without talk, and nobody.
 *
 * @param talk where somebody speaks
 * @param sound where it is louder than the room
 * @param still where nothing moves in the picture
 */
export function presenceOf(
  length: Ticks<'recording'>,
  talk: readonly Range<'recording'>[],
  sound: readonly Range<'recording'>[],
  still: readonly Range<'recording'>[],
): Presence {
  const whole = editList(length > 0 ? [{ start: ticks<'recording'>(0), end: length }] : []);
  const spoken = common(whole, editList(talk));
  const rest = without(whole, spoken);
  const nobody = common(without(rest, editList(sound)), editList(still));
  return { talk: spoken, work: without(rest, nobody), nobody };
}

/** Talk, work and nobody as an analysis has them; nothing where loudness stands for talk. */
export function presenceHeard(
  by: SpeechBy,
  found: Readonly<Record<keyof Presence, readonly Range<'recording'>[]>>,
): Presence | undefined {
  if (by !== 'network') return undefined;
  return { talk: editList(found.talk), work: editList(found.work), nobody: editList(found.nobody) };
}
