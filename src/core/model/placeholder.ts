/** What a starting file holds where somebody has to write; no sound content has it. */
export const PLACEHOLDER = 'FILL IN';
