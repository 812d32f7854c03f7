/** @jsxImportSource preact */
import type { PackedDay } from './packed-day.ts';

/** Asks what to make of a clock that ran ahead of the seconds that this window has counted. */
export function ClockGap({ day, sync }: { day: PackedDay; sync: () => void }) {
  const minutes = Math.round(day.gap.value / 60);
  if (minutes < 1) return null;
  return (
    <p class="notice" role="status">
      This machine’s clock has gone on by {minutes} min more than this window has counted.{' '}
      <button type="button" onClick={() => void day.countGap().then(sync)}>
        It slept: count them
      </button>{' '}
      <button type="button" onClick={() => day.leaveGap()}>
        The clock was set
      </button>
    </p>
  );
}
