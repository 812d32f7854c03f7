/** Speeds of the shuttle, times real time; the signs say which way. Common practice of editing rooms, no source. */
const STEPS = [1, 1.5, 2, 4, 8, 16] as const;

/**
 * The next speed when the shuttle key for a direction is pressed once more: from standing to real time, then faster;
 * against the way it runs, first slower, then the other way.
 *
 * @param speed times real time; negative runs backwards, 0 stands
 * @param way 1 forwards, -1 backwards
 */
export function shuttled(speed: number, way: 1 | -1): number {
  if (speed === 0) return way;
  const size = Math.abs(speed);
  const at = STEPS.findIndex((step) => step >= size);
  const here = at === -1 ? STEPS.length - 1 : at;
  if (Math.sign(speed) === way) return way * (STEPS[Math.min(here + 1, STEPS.length - 1)] ?? size);
  const slower = STEPS[here - 1];
  return slower === undefined ? way : -way * slower;
}

/** How a speed reads: "2× back". */
export function speedText(speed: number): string {
  if (speed === 0) return 'standing';
  return `${Math.abs(speed)}×${speed < 0 ? ' back' : ''}`;
}
