/** From this factor on two values of one thing are told (common practice, no source): a slipped point is ten. */
export const FAR_FROM_NEIGHBOUR = 5;
/** A tolerance so many times that of the same thing elsewhere is told (common practice, no source). */
export const TOLERANCE_UNLIKE = 5;
/** A tolerance to one side of this share of the value, or more, is told (common practice, no source). */
export const TOLERANCE_WIDE = 0.5;
/** Limits of which the upper is so many times the lower are told (common practice, no source). */
export const LIMITS_APART = 10;
/** ISO 6789-1 lets a hand torque tool above 10 N·m be off by 4 % either way; half of that cannot be set at all. */
export const TORQUE_TIGHT = 0.02;
/** The marks of a tool are at most this share of the band that it sets or judges (common practice, no source). */
export const MARK_SHARE = 0.1;
