import { TICKS_PER_SECOND } from '../time/index.ts';
import type { Labels } from './moments.ts';
import { rulerStep, type Scale } from './scale.ts';

/**
 * Moments that a ruler writes: whole seconds and minutes as the labels count them. At 30000/1001 frames a second these
 * are no whole seconds of time; drop-frame labels begin most minutes with frame 2 (SMPTE ST 12-1).
 *
 * @param lines how many are seen
 * @param apart lines between two of them, at least
 * @returns ticks from the start, in order, within what is seen
 */
export function rulerMarks(scale: Scale, lines: number, apart: number, labels: Labels): number[] {
  const step = rulerStep(scale, apart);
  const end = scale.top + lines * scale.ticksPerLine;
  const momentOf =
    labels.rate && !labels.uneven && step >= 1 ? labelled(labels) : (seconds: number) => seconds * TICKS_PER_SECOND;
  const marks: number[] = [];
  // Labels may begin at any hour; the first mark is looked for from the label of the first line on.
  let seconds = Math.floor(secondsAt(scale.top, labels, step) / step) * step - step;
  for (let at = momentOf(seconds); at <= end; seconds += step, at = momentOf(seconds))
    if (at >= Math.max(0, scale.top - apart * scale.ticksPerLine)) marks.push(at);
  return marks;
}

function secondsAt(moment: number, { rate, startFrame, uneven }: Labels, step: number): number {
  if (!rate || uneven || step < 1) return moment / TICKS_PER_SECOND;
  return (moment / rate.ticksPerFrame + startFrame) / rate.nominal;
}

/** The moment of the first frame that a whole second of labels has. */
function labelled({ rate, startFrame }: Labels): (seconds: number) => number {
  const { nominal = 0, dropped = 0, ticksPerFrame = 0 } = rate ?? {};
  return (seconds) => {
    const minutes = Math.floor(seconds / 60);
    const left = dropped * (minutes - Math.floor(minutes / 10));
    const first = seconds % 60 === 0 && minutes % 10 !== 0 ? dropped : 0;
    return (seconds * nominal + first - left - startFrame) * ticksPerFrame;
  };
}
