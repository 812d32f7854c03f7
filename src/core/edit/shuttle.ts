/** Speeds of the shuttle, times real time; the signs say which way. Common practice of editing rooms, no source. */
const STEPS = [1, 1.5, 2, 4, 8, 16] as const;

/**
 * The next speed when the shuttle key for a direction is pressed once more: from standing to real time, then faster;
 * against the way it runs, first slower, then the other way.
 *
 * @param speed times real time; negative runs backwards, 0 stands
 * @param way 1 forwards, -1 backwards
 */
export function nextShuttleSpeed(speed: number, way: 1 | -1): number {
  if (speed === 0) return way;
  const size = Math.abs(speed);
  if (size < 1) return way;
  const at = STEPS.findIndex((step) => step >= size);
  const here = at === -1 ? STEPS.length - 1 : at;
  if (Math.sign(speed) === way) return way * (STEPS[Math.min(here + 1, STEPS.length - 1)] ?? size);
  const slower = STEPS[here - 1];
  return slower === undefined ? way : -way * slower;
}

const SLOW = [0.5, 0.25, 0.125] as const;

/** The next slow speed: half, a quarter and an eighth of real time, and round to half again. */
export function nextSlowSpeed(speed: number, way: 1 | -1): number {
  const here = SLOW.findIndex((step) => step * way === speed);
  return way * (SLOW[(here + 1) % SLOW.length] ?? 0.5);
}

/** How a speed reads: "2× back". */
export function speedText(speed: number): string {
  if (speed === 0) return 'Stopped';
  return `${Math.abs(speed)}×${speed < 0 ? ' back' : ''}`;
}
