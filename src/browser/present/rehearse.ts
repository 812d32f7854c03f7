import type { DrawnCourse } from '../../core/day/index.ts';
import { ranAt } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';

const LOOK_MS = 100;

/** Plays the part of the room in a rehearsal: blocks take what was drawn for them, and clips run without a film. */
export function rehearse(store: DayStore, course: DrawnCourse): () => void {
  const timer = setInterval(() => {
    store.tick();
    const { phase, now, given, times, screen } = store.state.value;
    const at = store.at.value ?? 0;
    const start = now === undefined ? undefined : times[now]?.start;
    if (phase === 'over') return clearInterval(timer);
    if (now === undefined || start === undefined) return;
    const { shown } = store;
    if (shown && screen.playing && ranAt(screen, at) >= shown.end - shown.start) store.act({ kind: 'clip-over' });
    if (shown?.talk && screen.talking && at - screen.since >= shown.talk.minutes * 60) store.act({ kind: 'play' });
    if (at - start >= course.took(now, given[now] ?? '')) store.act({ kind: 'next' });
  }, LOOK_MS);
  return () => clearInterval(timer);
}
