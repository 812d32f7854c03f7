/** The side of a limit that is left: `min` for "no less than", `max` for "no more than". */
export type Side = 'min' | 'max';

/** The other side. */
export const otherSide = (side: Side): Side => (side === 'min' ? 'max' : 'min');
