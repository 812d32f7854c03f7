/** Corners of the picture that a card can lie in, the first tried first. */
export const CARD_CORNERS = ['top-left', 'top-right', 'bottom-left', 'bottom-right'] as const;
export type CardCorner = (typeof CARD_CORNERS)[number];
