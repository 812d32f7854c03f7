/** How fast a film can play; 1 as it was filmed. */
export const SPEEDS = [0.5, 0.75, 1, 1.25, 1.5, 2];
