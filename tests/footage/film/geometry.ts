/** The picture: 32 × 18 macroblocks of 16 px, so that what changes from frame to frame lies on block edges. */
export const WIDTH = 512;
export const HEIGHT = 288;
/** Heading 0 … 40, drawing 40 … 224, clock 224 … 272, strip 272 … 288. */
export const DRAWING_TOP = 40;
export const CLOCK = { left: 16, top: 224, cellWidth: 32, cellHeight: 48 } as const;
export const STRIP_TOP = 272;
/** Still pictures in one cycle of a motion, and how many frames each of them stands. */
export const PHASES = 12;
export const FRAMES_PER_PHASE = 10;
