import { TICKS_PER_SECOND } from './ticks.ts';

/** A frame rate with its way of counting labels (SMPTE ST 12-1; 48 to 60 labels a second by ST 12-3). */
export interface FrameRate {
  /** As written in files and on the command line. */
  readonly name: RateName;
  /** Frames per second as a fraction, exact. */
  readonly numerator: number;
  readonly denominator: number;
  /** Labels counted per second. */
  readonly nominal: number;
  /** Labels left out at each minute but every tenth; 0 when not drop-frame. */
  readonly dropped: number;
  /** Exact length of a frame, ticks. */
  readonly ticksPerFrame: number;
}

export const RATE_NAMES = [
  '23.976',
  '24',
  '25',
  '29.97',
  '29.97df',
  '30',
  '48',
  '50',
  '59.94',
  '59.94df',
  '60',
] as const;
export type RateName = (typeof RATE_NAMES)[number];

function rate(name: RateName, nominal: number, ntsc: boolean, dropped = 0): FrameRate {
  const numerator = ntsc ? nominal * 1000 : nominal;
  const denominator = ntsc ? 1001 : 1;
  return {
    name,
    numerator,
    denominator,
    nominal,
    dropped,
    ticksPerFrame: (TICKS_PER_SECOND * denominator) / numerator,
  };
}

/** Every rate Liftside counts in, by name. */
export const FRAME_RATES: Readonly<Record<RateName, FrameRate>> = {
  '23.976': rate('23.976', 24, true),
  '24': rate('24', 24, false),
  '25': rate('25', 25, false),
  '29.97': rate('29.97', 30, true),
  '29.97df': rate('29.97df', 30, true, 2),
  '30': rate('30', 30, false),
  '48': rate('48', 48, false),
  '50': rate('50', 50, false),
  '59.94': rate('59.94', 60, true),
  '59.94df': rate('59.94df', 60, true, 4),
  '60': rate('60', 60, false),
};

/** The rate of that name, or nothing. */
export function findRate(name: string): FrameRate | undefined {
  return (RATE_NAMES as readonly string[]).includes(name) ? FRAME_RATES[name as RateName] : undefined;
}

/**
 * The rate nearest to a measured number of frames per second, when one lies within 0.05 %
 * (the 1000/1001 pairs lie 0.1 % apart). Counted as drop-frame only where asked.
 *
 * @param framesPerSecond as a probe measured it
 */
export function nearestRate(framesPerSecond: number, dropFrame = false): FrameRate | undefined {
  return Object.values(FRAME_RATES).find(
    (r) =>
      Math.abs(framesPerSecond / (r.numerator / r.denominator) - 1) < 0.0005 &&
      r.dropped > 0 === (dropFrame && (r.name.startsWith('29.97') || r.name.startsWith('59.94'))),
  );
}
